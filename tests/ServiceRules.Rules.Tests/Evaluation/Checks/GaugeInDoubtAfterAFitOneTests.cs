using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;
using static ServiceRules.Rules.Tests.Evaluation.Sample;

namespace ServiceRules.Rules.Tests.Evaluation.Checks;

/// <summary>Readings of unfit gauges beside those of fit ones.</summary>
public class GaugeInDoubtAfterAFitOneTests
{
    private static readonly Check OnTarget = new Check.LimitOnQuantity(
        MeasuredQuantity.HeightOfCut,
        LimitSource.SettingOrder,
        CheckedPlaces.StationsAndEnds
    );

    /// <summary>
    /// What a gauge in doubt, or none, reads after the fit one and far from it is not dropped: it is looked at again. What the fit
    /// one shows out stays out, and what it reads last counts alone.
    /// </summary>
    [Theory]
    [InlineData("HG-OFF", "4.00 mm", "5.00 mm", null, Verdict.Unproven)]
    [InlineData(null, "4.00 mm", "9.80 mm", null, Verdict.Unproven)]
    [InlineData("HG-OFF", "4.00 mm", "4.01 mm", null, Verdict.Met)]
    [InlineData("HG-OFF", "4.00 mm", "5.00 mm", "4.00 mm", Verdict.Met)]
    [InlineData("HG-OFF", "5.00 mm", "4.00 mm", null, Verdict.NotMet)]
    public void Evaluate_GaugeInDoubtAfterAFitOne_AsksForAnotherLook(
        string? gauge,
        string first,
        string later,
        string? again,
        Verdict verdict
    )
    {
        List<BenchEntry> entries =
        [
            Height("left", first),
            Height("right", first),
            Height("left", later, gauge),
            Height("right", later, gauge),
        ];
        if (again is not null)
        {
            entries.AddRange([Height("left", again), Height("right", again)]);
        }

        var outcome = Judge(
            OnTarget,
            FrameBuilder.Build(
                Record(Unit([.. entries])) with
                {
                    Instruments =
                    [
                        Instruments[0],
                        Instruments[0] with
                        {
                            Id = new("HG-OFF"),
                            ZeroCheck = new(L("0.05 mm"), null),
                        },
                    ],
                },
                Context,
                Book()
            )
        );

        Assert.Equal(verdict, outcome.Verdict);
        Assert.Equal(verdict is Verdict.Unproven, outcome.Reason is FindingReason.Conflicting);
    }
}
