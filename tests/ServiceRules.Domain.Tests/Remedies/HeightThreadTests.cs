using FsCheck.Xunit;
using ServiceRules.Domain.Remedies;
using static ServiceRules.Domain.Tests.ReferenceNumber;

namespace ServiceRules.Domain.Tests.Remedies;

public sealed class HeightThreadTests
{
    [Theory]
    // A 1.5 mm pitch acting directly: 0.4 mm is 2.13 eighths, so 2, which gives 0.375 mm.
    [InlineData(1.5, 1, 0.4, 8, 2, 0.375)]
    // Half a part is a tie: the smaller turn.
    [InlineData(1.5, 1, -0.28125, 8, -1, -0.1875)]
    [InlineData(1.5, 1, -0.29, 8, -2, -0.375)]
    // A lever halves it: 1.5 · 0.5 / 4 = 0.1875 per quarter turn.
    [InlineData(1.5, 0.5, 0.19, 4, 1, 0.1875)]
    [InlineData(1.5, 1, 0, 8, 0, 0)]
    public void TurnsFor_AChangeOfHeight_IsTheNearestPartOfATurn(
        decimal pitch,
        decimal ratio,
        decimal change,
        int partsPerTurn,
        int parts,
        decimal predicted
    )
    {
        var turns = new HeightThread(Mm(pitch), ratio).TurnsFor(Mm(change), partsPerTurn);

        Assert.Equal((parts, Mm(predicted)), (turns.Parts, turns.Predicted));
    }

    /// <summary>
    /// Outside values: turf/formulas.json, F33: wheelbase 180, fixed roller at 90, so ratio 0.5; pitch 1.0; 0.10 of height is
    /// 0.2 of a turn, two tenths of it.
    /// </summary>
    [Fact]
    public void TurnsFor_TheWorkedExample_AgreesWithIt()
    {
        var example = ReferenceCases
            .In("turf", "formulas.json", "formulas")
            .Named("F33")
            .GetProperty("worked_example");
        var given = example.GetProperty("inputs");
        var ratio =
            Exact(given.GetProperty("x_shear_to_fixed_roller"))!.Value
            / Exact(given.GetProperty("wheelbase"))!.Value;
        var thread = new HeightThread(Millimetres(given.GetProperty("thread_pitch"))!.Value, ratio);

        var turns = thread.TurnsFor(Millimetres(given.GetProperty("delta_HOC"))!.Value, 10);

        Assert.Equal(Exact(example.GetProperty("result").GetProperty("turns")), turns.Parts / 10m);
        Assert.Equal(Mm(0.10m), turns.Predicted);
    }

    [Fact]
    public void Learned_FromOnePart_IsTheScrewThatMovesByIt()
    {
        // 0.1 mm by an eighth of a turn of a 1.6 mm screw: 0.8 mm a turn, ratio one half.
        var thread = HeightThread.Learned(Mm(1.6m), Mm(0.1m), 8);

        Assert.Equal(0.5m, thread.Ratio);
        Assert.Equal(Mm(0.8m), thread.PerTurn);
        Assert.Equal(Mm(0.1m), thread.PartOf(8));
        Assert.Throws<ArgumentOutOfRangeException>(() => thread.PartOf(0));
    }

    [Property(MaxTest = PropertyCases.Each)]
    public void TurnsFor_AnyChange_IsOffByAtMostHalfAPart(short change, byte parts)
    {
        var thread = new HeightThread(Mm(1.25m), 1m);
        var turns = thread.TurnsFor(Mm(change * 0.001m), (parts % 24) + 1);

        var off = Math.Abs(turns.Predicted.Millimetres - (change * 0.001m));
        Assert.True(off <= (1.25m / ((parts % 24) + 1) / 2) + 0.00000000001m);
    }

    [Theory]
    [InlineData(0, false)]
    [InlineData(1, true)]
    [InlineData(360, true)]
    [InlineData(361, false)]
    public void TurnsFor_PartsOfATurn_AreOneTo360(int parts, bool accepted)
    {
        var thread = new HeightThread(Mm(1m), 1m);

        if (accepted)
        {
            Assert.Equal(parts, thread.TurnsFor(Mm(1m), parts).Parts);
        }
        else
        {
            Assert.Throws<ArgumentOutOfRangeException>(() => thread.TurnsFor(Mm(1m), parts));
        }
    }

    [Fact]
    public void TurnsFor_AScrewThatDoesNotAdvance_IsRefused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new HeightThread(Mm(0m), 1m).TurnsFor(Mm(1m), 8));
}
