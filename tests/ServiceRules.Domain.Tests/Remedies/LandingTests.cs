using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Remedies;
using static ServiceRules.Domain.Tests.ReferenceNumber;

namespace ServiceRules.Domain.Tests.Remedies;

/// <summary>How far a prediction may be off: adjusters at 0 and 500 mm, step 0.0127 mm, the place at 100 mm.</summary>
public sealed class LandingTests
{
    private static readonly AdjusterPair Adjusters = AdjusterPair.TryCreate(
        Length.Zero,
        Mm(500m),
        Mm(0.0127m),
        Approach.Either,
        out var pair
    )
        ? pair
        : throw new InvalidOperationException("the pair is usable");

    private static readonly MeasuredValue Read = new(Mm(0.040m), StandardUncertainty.From(Mm(0.005m)));

    /// <summary>
    /// U 0.010. Left 3, right 1: (3·400 + 1·100)/500 = 2.6 steps of 0.001 doubt, and 0.0127·2/500·5 = 0.000254 by the lever.
    /// Left -3, right 1: abs(-2.2), and twice the lever.
    /// </summary>
    [Theory]
    [InlineData(3, 1, 0.001, 0.012854)]
    [InlineData(-3, 1, 0.001, 0.012708)]
    [InlineData(1, 3, 0.001, 0.011654)]
    [InlineData(2, 2, 0.001, 0.012)]
    [InlineData(3, 1, 0, 0.010254)]
    [InlineData(0, 0, 0.001, 0.010)]
    public void Doubt_OfAMeasuredValue_AddsReadingStepsAndLever(
        int left,
        int right,
        decimal step,
        decimal expected
    )
    {
        var landing = Of(Read);

        Assert.Equal(Mm(0.010m), landing.Reach);
        Assert.Equal(Mm(expected), landing.Doubt(Adjusters, left, right, Mm(step)));
    }

    /// <summary>The middle of 0.02 to 0.05 is 0.035; what is really known reaches 0.025 down to 0.01, or 0.03 up to 0.065.</summary>
    [Theory]
    [InlineData(0.02, 0.05, 0.015)]
    [InlineData(0.01, 0.05, 0.025)]
    [InlineData(0.02, 0.065, 0.030)]
    public void Reach_OfAnInterval_IsTheFurtherEndOfWhatIsKnown(decimal low, decimal high, decimal reach)
    {
        var landing = Of(LengthInterval.Between(Mm(0.02m), Mm(0.05m))) with
        {
            Known = LengthInterval.Between(Mm(low), Mm(high)),
        };

        Assert.Equal(Mm(reach), landing.Reach);
    }

    [Fact]
    public void Doubt_OfWhatIsOpen_IsNone()
    {
        Assert.Null(Of(LengthInterval.AtLeast(Mm(0.02m))).Doubt(Adjusters, 1, 1, Mm(0.001m)));
        Assert.Null((Of(Read) with { Known = LengthInterval.AtLeast(Mm(0.02m)) }).Reach);
        Assert.Null(
            (
                Of(LengthInterval.AtLeast(Mm(0.02m))) with
                {
                    Known = LengthInterval.Between(Mm(0.02m), Mm(0.03m)),
                }
            ).Reach
        );
    }

    private static Landing Of(Knowledge before) => new(LandingPlace.Station, Mm(100m), before, before);
}
