using ServiceRules.Domain.Measurement;
using static ServiceRules.Domain.Tests.ReferenceNumber;

namespace ServiceRules.Domain.Tests.Measurement;

/// <summary>The middle and the ends of what is known.</summary>
public sealed class KnowledgeTests
{
    /// <summary>As read: its uncertainty is not taken off.</summary>
    [Fact]
    public void Ends_OfAMeasuredValue_AreTheValue()
    {
        Knowledge known = new MeasuredValue(Mm(0.04m), StandardUncertainty.From(Mm(0.005m)));

        Assert.Equal((Mm(0.04m), Mm(0.04m), Mm(0.04m)), (known.Least, known.Middle, known.Greatest));
    }

    [Fact]
    public void Ends_OfAnInterval_AreItsOwn()
    {
        Knowledge known = LengthInterval.Between(Mm(0.02m), Mm(0.05m));

        Assert.Equal((Mm(0.02m), Mm(0.035m), Mm(0.05m)), (known.Least, known.Middle, known.Greatest));
    }

    [Fact]
    public void Middle_OfWhatIsOpenOnASide_IsNone()
    {
        Knowledge above = LengthInterval.AtLeast(Mm(0.02m));
        Knowledge below = LengthInterval.LessThan(Mm(0.05m));

        Assert.Equal((Mm(0.02m), null, null), (above.Least, above.Middle, above.Greatest));
        Assert.Equal((null, null, Mm(0.05m)), (below.Least, below.Middle, below.Greatest));
    }
}
