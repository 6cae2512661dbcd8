using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;
using static ServiceRules.Rules.Tests.Evaluation.Checks.NearestTurnTests;
using static ServiceRules.Rules.Tests.Evaluation.Sample;

namespace ServiceRules.Rules.Tests.Evaluation.Checks;

/// <summary>
/// A blade that by the middle of what is known stands apart, where what is known does not prove it: no metal is taken off for that.
/// </summary>
public class BladesThatSeemApartTests
{
    private static readonly Check Limit = new Check.LimitOnQuantity(
        MeasuredQuantity.Clearance,
        LimitSource.Sheet,
        CheckedPlaces.StationsAndEnds
    );

    private static Remedy.ReadAgain Again(CheckOutcome outcome) =>
        Assert.IsType<Remedy.ReadAgain>(outcome.Remedy);

    /// <summary>
    /// All blades as taught on the left, the fourth tried with a wider pair that holds theirs; all too wide on the right, between 0.002
    /// and 0.003 in.
    /// </summary>
    [Fact]
    public void Evaluate_BladeTriedWithAWiderPair_IsTriedAgainWithTheSameFeelers()
    {
        var again = Again(
            OnBench(
                new Check.ProceduralLimit(MeasuredQuantity.Clearance),
                [
                    .. Enumerable
                        .Range(1, Sheet.Blades)
                        .SelectMany(blade =>
                            Between("left", "0.001 in", blade == 4 ? "0.004 in" : "0.0015 in", blade)
                                .Concat(Between("right", "0.002 in", "0.003 in", blade))
                        ),
                ]
            )
        );

        Assert.EndsWith(", blade 4", Assert.Single(again.Places), StringComparison.Ordinal);
        Assert.EndsWith("try the same feelers under all of them", again.Why, StringComparison.Ordinal);
    }

    /// <summary>Repeatability 0.030 mm: 0.060 against 0.020 is 0.040 ± 0.085.</summary>
    [Fact]
    public void Evaluate_BladeReadWiderWithACoarseGauge_IsReadAgainWithAFinerOne()
    {
        var entries = Enumerable
            .Range(1, Sheet.Blades)
            .SelectMany(blade =>
                new[] { ("left", blade == 4 ? "0.060 mm" : "0.020 mm"), ("right", "0.140 mm") }.Select(read =>
                    Measured(MeasuredQuantity.Clearance, read.Item1, read.Item2, "DG-07") with
                    {
                        Blade = blade,
                    }
                )
            );
        var again = Again(
            Judge(
                Limit,
                FrameBuilder.Build(
                    Record(Unit([.. entries])) with
                    {
                        Instruments =
                        [
                            new()
                            {
                                Id = new("DG-07"),
                                Kind = InstrumentKind.DialGauge,
                                Resolution = L("0.001 mm"),
                                Repeatability = L("0.030 mm"),
                                Calibration = new(new(2026, 1, 10), new(2027, 1, 10), L("0.002 mm"), 2m),
                            },
                        ],
                    },
                    Context,
                    Book(Bench)
                )
            )
        );

        Assert.EndsWith(", blade 4", Assert.Single(again.Places), StringComparison.Ordinal);
        Assert.EndsWith("read all of them with a finer gauge", again.Why, StringComparison.Ordinal);
    }
}
