using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Trade;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// Clip spacing against the height: as it was read on the turf where nothing has moved it since, else as it is left on the
/// bench gauge. Speeds count as stated; the height carries its uncertainty.
/// </summary>
internal static class ClipCheck
{
    public static CheckOutcome Evaluate(Check.Clip check, Rule rule, JobFrame frame, UnitFrame? unit)
    {
        if (unit is null)
        {
            return Subjects.EachUnit(rule, frame);
        }

        var mowing = MowingKnown.Of(frame, unit);
        if (mowing is { Ground: null, Reel: null })
        {
            return Told.NotApplicable("Clip: no ground speed and reel speed are stated for this unit");
        }

        return mowing.Clip(unit.Sheet.Blades) is { } clip
            ? Judged(check, rule, frame.Record.Machine.Tested?.EffectiveHeight, unit, clip, mowing)
            : OneSpeedOnly(mowing);
    }

    private static CheckOutcome OneSpeedOnly(MowingKnown mowing) =>
        Told.Unproven(
            FindingReason.NoSettingInForce,
            mowing.Ground is { } ground
                ? $"Clip: at {ground}, but how fast the reel turns is stated nowhere"
                : $"Clip: at {mowing.Reel}, but the ground speed is stated nowhere",
            mowing.Evidence,
            new Remedy.Act("measure both speeds, or have the lead enter them in the setting order")
        );

    private static CheckOutcome Judged(
        Check.Clip check,
        Rule rule,
        PrintedLength? onTurf,
        UnitFrame unit,
        Clip clip,
        MowingKnown mowing
    )
    {
        var isMoved = TouchedInJob.Is(MeasuredQuantity.HeightOfCut, unit);
        var places = UnitPlaces.Of(unit, MeasuredQuantity.HeightOfCut);
        var asked =
            onTurf is not null && !isMoved
                ? [OnTurf(onTurf)]
                : places.Usable.Select(place => OnBench(place, places)).ToList();
        var zone = PrintedZone.AtLeast(
            Length.FromMillimetres(Math.Round(clip.Spacing.Millimetres / check.Ratio, 12))
        );
        var contested =
            onTurf is not null && !isMoved
                ? []
                : ContestedBreach.Among(MeasuredQuantity.HeightOfCut, places, zone, rule.Decision);
        List<PlaceJudgement> judged =
        [
            .. asked.Select(each => PlaceJudgement.Of(each, zone, rule.Decision)),
            .. contested,
        ];
        var outcome = JudgedPlaces.Outcome(
            ClipWords.Subject(clip, places.Usable.FirstOrDefault()?.System ?? UnitSystem.Metric),
            judged,
            onTurf is not null && !isMoved ? [] : [.. places.Obstacles.Select(OfHeight)],
            places.Usable.SelectMany(place => place.Evidence).Concat(mowing.Evidence)
        );
        var worst = judged.Find(place =>
            ReferenceEquals(place.Compared, outcome.Comparisons.FirstOrDefault())
        );
        return outcome with
        {
            // Bars and drawings show what the height itself is held against.
            Comparisons = [],
            Statement =
                outcome.Verdict is Verdict.Unproven
                    ? outcome.Statement
                    : ClipWords.Of(clip, check.Ratio, worst!, outcome.Verdict),
            Notices =
            [
                .. outcome.Verdict is Verdict.NotMet ? ClipWords.Ways(clip, check.Ratio, worst!, judged) : [],
                .. TurfNotices(onTurf, isMoved),
                .. Alike.Once(contested.Select(ContestedBreach.Notice)),
            ],
            Remedy = outcome.Verdict switch
            {
                Verdict.NotMet => new Remedy.Act(rule.Advice),
                Verdict.Unproven => ReadAgain.For(outcome, MeasuredQuantity.HeightOfCut, places),
                _ => null,
            },
        };
    }

    private static Obstacle OfHeight(Obstacle obstacle) =>
        obstacle with
        {
            Subject = Wording.Of(MeasuredQuantity.HeightOfCut),
        };

    private static Asked OnBench(PlaceKnown place, UnitPlaces places) =>
        new(
            MeasuredQuantity.HeightOfCut,
            UnitPlaces.Name(place.Station, place.Blade),
            places.Said(place.Station, place.Blade),
            place.Knowledge!,
            place.System,
            place.Doubt,
            null
        )
        {
            Grown = GrownDoubt.BySteps(place.AsRead),
            Corrected = place.Corrected is [var corrected] ? corrected : null,
            IsReadInBoth = place.IsReadInBoth,
        };

    /// <summary>A prism is read to the last digit that is written down, and at low heights it is no longer to be relied on.</summary>
    private static Asked OnTurf(PrintedLength height)
    {
        var digit = UncertaintyBudget.Of(
            UncertaintyContribution.Resolution(GaugeStep.Written(height, kind: null))
        );
        return new(
            MeasuredQuantity.HeightOfCut,
            "on the turf",
            "on the turf",
            digit.Around(height.Value),
            height.System,
            new HeightPair(height.Value, height.Value).IsBelowPrism
                ? FindingReason.GaugeUnfit
                : FindingReason.None,
            null
        );
    }

    private static IEnumerable<string> TurfNotices(PrintedLength? onTurf, bool isMoved)
    {
        if (onTurf is null)
        {
            yield break;
        }

        if (isMoved)
        {
            yield return $"the height of {onTurf} on the turf was read before the unit was set anew: read it again";
        }

        if (new HeightPair(onTurf.Value, onTurf.Value).IsBelowPrism)
        {
            yield return "a prism cannot be relied on at or below 0.120 in (3.05 mm) (S06)";
        }
    }
}
