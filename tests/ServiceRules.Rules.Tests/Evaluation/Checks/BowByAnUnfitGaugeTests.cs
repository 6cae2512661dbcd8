using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;
using static ServiceRules.Rules.Tests.Evaluation.Sample;

namespace ServiceRules.Rules.Tests.Evaluation.Checks;

/// <summary>A bow that only a gauge out of date shows: nobody grinds for it before a fit gauge showed it too.</summary>
public class BowByAnUnfitGaugeTests
{
    private static readonly Check OnTarget = new Check.LimitOnQuantity(
        MeasuredQuantity.HeightOfCut,
        LimitSource.SettingOrder,
        CheckedPlaces.StationsAndEnds
    );

    private static CheckOutcome Read(string sides, string middle, bool isInDate) =>
        Judge(
            OnTarget,
            FrameBuilder.Build(
                Record(Unit(Height("left", sides), Height("middle", middle), Height("right", sides))) with
                {
                    Instruments =
                    [
                        isInDate
                            ? Instruments[0]
                            : Instruments[0] with
                            {
                                Calibration = Instruments[0].Calibration! with { Due = new(2026, 4, 12) },
                            },
                    ],
                },
                Context,
                Book()
            )
        );

    [Fact]
    public void Evaluate_BowedByAGaugeOutOfDate_IsToldAsOfThatGauge()
    {
        var told = string.Join("; ", Read("4.00 mm", "4.08 mm", isInDate: false).Notices);

        Assert.Contains(
            "bowed by what this gauge shows alone, which is not fit to prove it",
            told,
            StringComparison.Ordinal
        );
        Assert.Contains(
            "read again at every station first, with a gauge that is fit for it and in date; if it stands, ",
            told,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Evaluate_BowedByAGaugeInDate_IsBowed()
    {
        var told = string.Join("; ", Read("4.00 mm", "4.08 mm", isInDate: true).Notices);

        Assert.Contains("bowed, ", told, StringComparison.Ordinal);
        Assert.DoesNotContain("gauge shows alone", told, StringComparison.Ordinal);
    }

    /// <summary>Not the ends are asked for, but another gauge.</summary>
    [Fact]
    public void Evaluate_BowedByAGaugeOutOfDate_AsksForAFitGauge()
    {
        var again = Assert.IsType<Remedy.ReadAgain>(Read("4.00 mm", "4.04 mm", isInDate: false).Remedy);

        Assert.Contains("in date", again.Why, StringComparison.Ordinal);
    }
}
