using System.Collections.Frozen;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Oracle.SafeWork;

/// <summary>What rests on entries that cannot be believed, and on them alone, is unproven.</summary>
internal sealed class Belief
{
    public const string Order = "147.d";
    public const string Notice = "147.c.9.before";

    private static readonly FrozenDictionary<string, TimelineEventKind[]> StepsOf = new Dictionary<
        string,
        TimelineEventKind[]
    >(StringComparer.Ordinal)
    {
        [Notice] = [TimelineEventKind.AffectedNotifiedBefore],
        ["147.c.1"] = [TimelineEventKind.IsolatorOperated, TimelineEventKind.PlugRemoved],
        ["147.d.1"] = [TimelineEventKind.EnergyReviewed],
        ["147.d.2"] = [TimelineEventKind.MachineShutDown],
        ["147.d.3"] = [TimelineEventKind.IsolatorOperated, TimelineEventKind.PlugRemoved],
        ["147.d.4.i"] =
        [
            TimelineEventKind.LockApplied,
            TimelineEventKind.TagApplied,
            TimelineEventKind.PlugControlConfirmed,
        ],
        ["147.d.5.i"] = [TimelineEventKind.StoredEnergyReleased],
        ["147.d.6"] = [TimelineEventKind.IsolationVerified],
    }.ToFrozenDictionary(StringComparer.Ordinal);

    private readonly Story story;
    private readonly HashSet<TimelineEvent> doubted;
    private readonly Story believed;
    private readonly Story withoutNotices;
    private readonly bool isDoubtful;

    public Belief(Story story)
    {
        this.story = story;
        doubted = new(
            CredibilityRows
                .BurstEntries(story)
                .Concat(CredibilityRows.BackFilledEntries(story))
                .Concat(CredibilityRows.SetBackEntries(story)),
            ReferenceEqualityComparer.Instance
        );
        believed = doubted.Count == 0 ? story : story.Without(doubted);
        withoutNotices =
            doubted.Count == 0
                ? story
                : story.Without([.. doubted.Where(e => e.Kind == TimelineEventKind.AffectedNotifiedBefore)]);
        isDoubtful =
            doubted.Count > 0 || SafeWorkOpinion.Doubts(story).Any(flag => flag.HasFlag(Possible.Unproven));
    }

    public Possible Of(string row, Func<Story, Possible> judge)
    {
        var plain = judge(story);
        if (doubted.Count == 0)
        {
            return OrUnproven(plain, isDoubtful);
        }

        if (row == Order)
        {
            return story.BeforeWork.Any(s => doubted.Contains(s.Event) && OrderRow.IsStep(s))
                ? Possible.Unproven
                    | (SequenceRows.RanInBetween(story) ? Possible.Met : Possible.None)
                    | (plain & Possible.NotMet)
                : OrUnproven(plain, true);
        }

        // A notice is doubted for itself: without the devices there would be nothing to give notice of.
        var rest = judge(row == Notice ? withoutNotices : believed);
        return plain == Possible.Met && rest == Possible.NotMet && RestsOnDoubt(row) ? Possible.Unproven
            : plain == rest ? OrUnproven(plain, true)
            : plain | rest | Possible.Unproven;
    }

    private static Possible OrUnproven(Possible plain, bool perhaps) =>
        perhaps && plain.HasFlag(Possible.Met) ? plain | Possible.Unproven : plain;

    /// <summary>Whether every step that the row asks for is doubted.</summary>
    private bool RestsOnDoubt(string row) =>
        StepsOf.TryGetValue(row, out var kinds)
        && story.BeforeWork.Where(s => kinds.Contains(s.Kind)).All(s => doubted.Contains(s.Event));
}
