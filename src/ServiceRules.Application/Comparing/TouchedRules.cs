using System.Collections.Immutable;
using ServiceRules.Application.Assessing;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Engine;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.Comparing;

/// <summary>
/// Which records a change can reach at all. Where rules changed and nothing that they look at, only those rules are judged,
/// before and after, on one frame: where they come out alike to the last word, so does all that follows from them.
/// </summary>
internal sealed class TouchedRules
{
    private static readonly AssessmentDigests Before = new("", "", "before");
    private static readonly AssessmentDigests After = new("", "", "after");

    private readonly RuleEngine engine = new();
    private readonly RuleSide old;
    private readonly RuleBook before;
    private readonly RuleBook after;
    private readonly ImmutableHashSet<string> sheets;
    private readonly ImmutableArray<(DateOnly From, DateOnly? Until)> settings;
    private readonly bool isAnyRule;
    private readonly bool isEverything;

    public TouchedRules(RuleSide old, RuleSide now, ImmutableArray<FolderChange> changes)
    {
        this.old = old;
        var touching = changes.Where(change => change.CanFlip).ToLookup(change => change.Kind);
        // A waiver is also looked at by duties of safe work, and a register by much else.
        isEverything =
            touching.Contains(ChangeKind.Jurisdiction)
            || touching.Contains(ChangeKind.Register)
            || touching.Contains(ChangeKind.Waiver);
        sheets =
        [
            .. touching[ChangeKind.Limit].Concat(touching[ChangeKind.UnitKind]).Select(change => change.Of),
        ];
        var orders = touching[ChangeKind.Setting]
            .Select(change => change.Of)
            .ToHashSet(StringComparer.Ordinal);
        settings =
        [
            .. old
                .Site.SettingOrders.Concat(now.Site.SettingOrders)
                .Where(order => orders.Contains(order.Id.Text))
                .Select(order => (order.From, order.Until)),
        ];
        var rules = touching
            .Where(kind =>
                kind.Key
                    is ChangeKind.RuleAdded
                        or ChangeKind.RuleRemoved
                        or ChangeKind.Condition
                        or ChangeKind.Check
                        or ChangeKind.Decision
                        or ChangeKind.Severity
            )
            .SelectMany(kind => kind.Select(change => change.Of))
            .ToHashSet(StringComparer.Ordinal);
        isEverything |= old.Site.Waivers.Any(waiver => rules.Contains(waiver.Rule));
        isAnyRule = rules.Count > 0;
        before = Only(old, rules);
        after = Only(now, rules);
    }

    /// <summary>Whether anything about a record can come out otherwise. Every sheet that it names is on both sides.</summary>
    public bool CanReach(ServiceRecord record, Func<RuleSide, WorkElsewhere> others)
    {
        if (
            isEverything
            || record.Units.Any(unit => sheets.Contains(unit.Sheet))
            || settings.Any(order => order.From <= record.Date && !(order.Until < record.Date))
        )
        {
            return true;
        }

        if (!isAnyRule)
        {
            return false;
        }

        var context = ContextFreezer.Freeze(old.Site, record, others(old));
        var frame = FrameBuilder.Build(record, context, old.Book);
        var (was, wouldBe) = (
            engine.Assess(frame with { Book = before }, Before).Findings,
            engine.Assess(frame with { Book = after }, After).Findings
        );
        return was.Length != wouldBe.Length
            || was.Zip(wouldBe).Any(pair => !IsAlike(pair.First, pair.Second));
    }

    private static bool IsAlike(Finding was, Finding wouldBe) =>
        was.Rule == wouldBe.Rule
        && was.Subject == wouldBe.Subject
        && was.Verdict == wouldBe.Verdict
        && was.Effect == wouldBe.Effect
        && was.Reason == wouldBe.Reason
        && was.Statement == wouldBe.Statement
        && was.LetOut == wouldBe.LetOut
        && was.Remedy == wouldBe.Remedy
        && was.Comparisons.SequenceEqual(wouldBe.Comparisons);

    private static RuleBook Only(RuleSide side, HashSet<string> rules) =>
        RuleMixture.Book(side.Book, side.InForce.Values.Where(rule => rules.Contains(rule.Id.Text)));
}
