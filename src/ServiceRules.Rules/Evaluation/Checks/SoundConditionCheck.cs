using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>A condition judged by eye or hand is sound, as left, wherever it was judged. Edges may be judged by paper.</summary>
internal static class SoundConditionCheck
{
    public static CheckOutcome Evaluate(
        Check.SoundCondition check,
        Rule rule,
        JobFrame frame,
        UnitFrame? unit
    )
    {
        if (unit is null)
        {
            return Subjects.EachUnit(rule, frame);
        }

        var subject = Wording.Sentence(Wording.Of(check.Quantity));
        var left = unit.Of(check.Quantity)?.Left ?? [];
        var faulty = left.Where(place => IsFaulty(place)).ToList();
        if (faulty.Count > 0)
        {
            var map = PaperMap.Of(left, unit.Sheet);
            return Told.NotMet(
                FindingReason.Faulty,
                $"{subject}: found faulty and nothing shows it put right",
                [.. faulty.SelectMany(place => place.Evidence)],
                new Remedy.Act(map?.Act ?? rule.Advice)
            ) with
            {
                Notices = map is { } paper ? [paper.Told] : [],
            };
        }

        var sound = left.Where(place => IsSound(place)).ToList();
        var weakest =
            left.FirstOrDefault(place => place.State is KnownState.Conflicting)
            ?? left.FirstOrDefault(place =>
                place.State is KnownState.Stale && !sound.Exists(other => Covers(other, place))
            );
        if (weakest is not null)
        {
            var (reason, why) =
                weakest.State is KnownState.Conflicting
                    ? (FindingReason.Conflicting, "seen both sound and faulty with nothing done between")
                    : (FindingReason.Stale, "work done since may have changed it");
            return Told.Unproven(
                reason,
                $"{subject}: {why}: check again",
                weakest.Evidence,
                new Remedy.ReadAgain(check.Quantity, [], why)
            );
        }

        return sound.Count > 0
            ? Told.Met($"{subject}: sound", [.. sound.SelectMany(place => place.Evidence)])
            : Told.Unproven(
                FindingReason.NotMeasured,
                $"{subject}: not checked",
                remedy: new Remedy.ReadAgain(check.Quantity, [], "not checked yet")
            );
    }

    /// <summary>A look that names no station, or no blade, is one at all of them.</summary>
    private static bool Covers(PlaceKnown whole, PlaceKnown part) =>
        (whole.Station is null || whole.Station == part.Station)
        && (whole.Blade is null || whole.Blade == part.Blade);

    /// <summary>An edge that is tried by paper is sound where the strip is cut clean.</summary>
    private static bool IsSound(PlaceKnown place) =>
        place.Condition is Condition.Sound || (place.Condition is null && place.Paper is PaperResult.Cuts);

    private static bool IsFaulty(PlaceKnown place) =>
        place.Condition is Condition.Faulty || place.Paper is PaperResult.Nips or PaperResult.Misses;
}
