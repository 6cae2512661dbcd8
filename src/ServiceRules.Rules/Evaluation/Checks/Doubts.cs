using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// Doubts about gauges: they turn met into unproven, and never soften a breach. Where nothing is known of how far a gauge
/// may be off there is no breach to soften: it proves nothing either way.
/// </summary>
internal static class Doubts
{
    public static FindingReason Gravest(IEnumerable<PlaceKnown> places)
    {
        var doubts = places.Select(place => place.Doubt).ToList();
        return doubts.Contains(FindingReason.UncertaintyUnknown)
            ? FindingReason.UncertaintyUnknown
            : doubts.Find(doubt => doubt != FindingReason.None);
    }

    public static (Verdict Verdict, FindingReason Reason) Applied(
        Verdict verdict,
        FindingReason reason,
        FindingReason doubt
    ) =>
        doubt is FindingReason.UncertaintyUnknown
        || (doubt != FindingReason.None && verdict is (Verdict.Met or Verdict.Unproven))
            ? (Verdict.Unproven, doubt)
            : (verdict, reason);
}
