using System.Collections.Immutable;
using ServiceRules.Domain.Conformity;
using ServiceRules.Domain.Geometry;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using static ServiceRules.Domain.Tests.ReferenceNumber;

namespace ServiceRules.Domain.Tests.Remedies;

/// <summary>
/// How many single steps cannot touch where a step that closes may take 0.02 mm, though 0.01 is aimed with, and one that opens adds
/// 0.005 at least. Adjusters at 0 and 500 mm, where the gaps are read.
/// </summary>
public sealed class StepsBeforeContactTests
{
    private static int? Before(string sequence, params ImmutableArray<StationReading> readings) =>
        ClickSolver.StepsBeforeContact(
            new()
            {
                Adjusters = ClickSolverTests.Pair(0m, 500m, 0.01m) with { LeastStep = Mm(0.005m) },
                Readings = readings,
                Width = Mm(500m),
                Zone = ToleranceZone.AtMost(Mm(0.1m)),
                Target = Mm(0.05m),
            },
            [
                .. sequence
                    .Split(' ')
                    .Select(step => new SingleStep(step[0] == 'L' ? Side.Left : Side.Right, step[1] == '+')),
            ],
            Mm(0.02m)
        );

    private static StationReading At(decimal station, decimal gap) =>
        new(Mm(station), MeasuredValue.Exact(Mm(gap)));

    /// <summary>
    /// 0.05 left: two steps of 0.02 leave 0.01, a third would touch. One that opens first adds 0.005 and no more, so that three leave
    /// -0.005. At the middle each side counts half: of 0.05, ten opened by the left add 0.025, and seven closed by the right take 0.07.
    /// </summary>
    [Theory]
    [InlineData("L- L- L-", 2)]
    [InlineData("R- R- R-", 2)]
    [InlineData("L- L-", null)]
    [InlineData("L+ L- L- L-", 3)]
    [InlineData("L- R- L- R- R- L-", 4)]
    [InlineData("L+ L+ L+ L+", null)]
    public void StepsBeforeContact_OfClosingSteps_EndBeforeTheFirstThatCouldTouch(
        string sequence,
        int? expected
    ) => Assert.Equal(expected, Before(sequence, At(0m, 0.05m), At(500m, 0.05m)));

    /// <summary>
    /// 0.014 in the middle, 0.5 at both ends: one opened left adds 0.0025 there, one closed right takes 0.01. After the second pair
    /// 0.014 + 0.005 - 0.02 is below nothing, though net nothing has moved.
    /// </summary>
    [Fact]
    public void StepsBeforeContact_OneSideOpensAndTheOtherCloses_CountsEachAtItsWorst() =>
        Assert.Equal(3, Before("L+ R- L+ R-", At(0m, 0.5m), At(250m, 0.014m), At(500m, 0.5m)));

    /// <summary>Of 0.04 two steps leave nothing: that touches, unless 0.04 itself is excluded.</summary>
    [Fact]
    public void StepsBeforeContact_DownToNothing_TouchesWhereNothingIsPossible()
    {
        Assert.True(
            LengthInterval.TryCreate(
                IntervalEnd.Open(Mm(0.04m)),
                IntervalEnd.Closed(Mm(0.05m)),
                out var above
            )
        );

        Assert.Equal(1, Before("L- L- L-", At(0m, 0.04m), At(500m, 0.5m)));
        Assert.Equal(2, Before("L- L- L-", new StationReading(Mm(0m), above), At(500m, 0.5m)));
    }

    /// <summary>In contact as it stands: what opens leads out of it, and what closes goes deeper.</summary>
    [Theory]
    [InlineData("L+ L+", null)]
    [InlineData("L+ L-", 1)]
    [InlineData("L- L+", 0)]
    public void StepsBeforeContact_InContactAsItStands_StopsAtWhatGoesDeeper(
        string sequence,
        int? expected
    ) => Assert.Equal(expected, Before(sequence, At(0m, -0.001m), At(500m, 0.5m)));
}
