using System.Collections.Immutable;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Engine.Inference;
using ServiceRules.Engine.Judging;
using ServiceRules.Rules.Evaluation;

namespace ServiceRules.Engine.Consequences;

/// <summary>What followed from the findings of one job, sorted so that nothing tells in which order it was found.</summary>
internal sealed class Conclusions
{
    // Far above what the largest record and pack can need: every rule on every subject, lifted twice.
    private const int MostFirings = 1_000_000;

    private static readonly Lazy<InferenceNetwork> Network = new(() =>
        InferenceNetwork.Compile(ConsequenceRules.All, MostFirings)
    );

    private readonly ILookup<string, Kept> _kept;
    private readonly ILookup<string, Doubted> _doubted;
    private readonly ILookup<string, Waits> _waits;

    private Conclusions(IReadOnlyList<Fact> known)
    {
        _kept = known.OfType<Kept>().ToLookup(kept => kept.Subject, StringComparer.Ordinal);
        _doubted = known
            .OfType<Doubted>()
            .OrderBy(doubt => doubt.Unit, StringComparer.Ordinal)
            .ThenBy(doubt => doubt.Quantity)
            .ThenBy(doubt => doubt.Rule, StringComparer.Ordinal)
            .ToLookup(doubt => doubt.Finding, StringComparer.Ordinal);
        _waits = known
            .OfType<Waits>()
            .OrderBy(wait => wait.Unit, StringComparer.Ordinal)
            .ThenBy(wait => wait.Rule, StringComparer.Ordinal)
            .ToLookup(wait => wait.Finding, StringComparer.Ordinal);
    }

    public static void Prepare() => _ = Network.Value;

    public static Conclusions From(ImmutableArray<DraftFinding> drafts, JobFrame frame)
    {
        var units = frame.Units;
        var set = new Subject.Set().Key;
        IEnumerable<Fact> facts =
        [
            new PartOf(set, new Subject.Job().Key),
            .. units.Select(unit => new PartOf(new Subject.Unit(unit.Work.Id).Key, set)),
            .. Telling(drafts).Select(draft => new FindingFact(draft)),
            .. Unjudged(drafts, units).Select(subject => new Kept(subject, Effect.Hold, RuleEngine.NoRule)),
            .. TasksOfNoUnit
                .Of(frame)
                .Take(1)
                .Select(_ => new Kept(new Subject.Job().Key, Effect.Hold, RuleEngine.TaskOfNoUnit)),
        ];
        return new(Network.Value.Run(facts));
    }

    /// <summary>Units of which nothing that the tasks ask for was judged; the job when it names no unit.</summary>
    private static IEnumerable<string> Unjudged(
        ImmutableArray<DraftFinding> drafts,
        ImmutableArray<UnitFrame> units
    )
    {
        var judged = drafts
            .Where(draft => draft.IsAsked)
            .Select(draft => draft.Finding)
            .Where(finding => finding.Verdict != Verdict.NotApplicable)
            .Select(finding => finding.Subject.Key)
            .ToHashSet(StringComparer.Ordinal);
        return units.IsEmpty
            ? [new Subject.Job().Key]
            : units.Select(unit => new Subject.Unit(unit.Work.Id).Key).Where(unit => !judged.Contains(unit));
    }

    /// <summary>
    /// Most findings are met and nothing follows from them unless some reading is stale; to leave them out then
    /// spares the network nearly all of its work.
    /// </summary>
    private static IEnumerable<DraftFinding> Telling(ImmutableArray<DraftFinding> drafts) =>
        drafts.Any(draft => !draft.ShowsStale().IsEmpty)
            ? drafts
            : drafts.Where(draft => draft.Finding.Verdict is Verdict.NotMet or Verdict.Unproven);

    public Outcome OutcomeOf(Subject subject)
    {
        var kept = _kept[subject.Key].ToList();
        return new Outcome(
            kept.Count == 0 ? Disposition.Release
                : kept.Exists(one => one.Effect == Effect.Stop) ? Disposition.Stop
                : Disposition.Hold,
            [.. kept.Select(one => one.Rule).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal)]
        );
    }

    /// <summary>Why a finding lost its proof, if it did; the first by unit, quantity and rule.</summary>
    public Doubted? DoubtOn(string finding) => _doubted[finding].FirstOrDefault();

    /// <summary>What the remedy of a finding waits for.</summary>
    public IEnumerable<Waits> WaitsOf(string finding) => _waits[finding];
}
