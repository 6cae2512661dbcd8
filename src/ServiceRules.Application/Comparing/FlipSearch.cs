using System.Collections.Immutable;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Explaining;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.Comparing;

/// <summary>
/// Judges a record by both folders and finds what flips and why. Where the folders differ in several kinds of things, each
/// kind is tried by itself: the old folder with that kind of change alone. What then comes out as by the new folder is the cause;
/// nothing is guessed from what happens to stand nearby.
/// </summary>
internal sealed class FlipSearch
{
    private readonly RuleSide old;
    private readonly RuleSide now;
    private readonly ImmutableArray<FolderChange> changes;
    private readonly TouchedRules touched;
    private readonly ImmutableArray<(ChangeKind Kind, Lazy<RuleSide> Side)> mixtures;

    public FlipSearch(RuleSide old, RuleSide now, ImmutableArray<FolderChange> changes)
    {
        this.old = old;
        this.now = now;
        this.changes = changes;
        touched = new(old, now, changes);
        mixtures =
        [
            .. changes
                .Where(change => change.CanFlip)
                .Select(change => change.Kind)
                .Distinct()
                .Order()
                .Select(kind => (kind, new Lazy<RuleSide>(() => RuleMixture.Of(old, now, kind)))),
        ];
    }

    public RecordCompared Compare(string file, ServiceRecord record, Func<RuleSide, WorkElsewhere> others)
    {
        var (lacking, gone) = (old.Missing(record), now.Missing(record));
        if (lacking.IsEmpty && gone.IsEmpty && !touched.CanReach(record, others))
        {
            return new()
            {
                File = file,
                Record = record,
                Was = null,
                WouldBe = null,
            };
        }

        var was = lacking.IsEmpty ? old.Judge(record, others(old)) : null;
        var wouldBe = gone.IsEmpty ? now.Judge(record, others(now)) : null;
        return new()
        {
            File = file,
            Record = record,
            Was = was,
            WouldBe = wouldBe,
            MissingSheets = [.. lacking, .. gone],
            Flips = was is null || wouldBe is null ? [] : Flips(record, was, wouldBe, others),
        };
    }

    private ImmutableArray<Flip> Flips(
        ServiceRecord record,
        Assessment was,
        Assessment wouldBe,
        Func<RuleSide, WorkElsewhere> others
    )
    {
        var (before, after) = (ByKey(was), ByKey(wouldBe));
        var keys = before
            .Keys.Union(after.Keys)
            .Where(key => Flip.Differs(before.GetValueOrDefault(key), after.GetValueOrDefault(key)))
            .OrderBy(key => key.Subject, StringComparer.Ordinal)
            .ThenBy(key => key.Rule, StringComparer.Ordinal)
            .ToList();
        if (keys.Count == 0)
        {
            return [];
        }

        var tried = mixtures.Length < 2 ? [] : Tried(record, others);
        return
        [
            .. keys.Select(key =>
                Of(
                    record,
                    before.GetValueOrDefault(key),
                    after.GetValueOrDefault(key),
                    [.. tried.Select(one => (one.Kind, Finding: one.Findings.GetValueOrDefault(key)))]
                )
            ),
        ];
    }

    private List<(ChangeKind Kind, Dictionary<(string Subject, string Rule), Finding> Findings)> Tried(
        ServiceRecord record,
        Func<RuleSide, WorkElsewhere> others
    )
    {
        List<(ChangeKind, Dictionary<(string, string), Finding>)> tried = [];
        foreach (var (kind, side) in mixtures)
        {
            if (side.Value.TryJudge(record, others(side.Value), out var assessment))
            {
                tried.Add((kind, ByKey(assessment)));
            }
        }

        return tried;
    }

    private static Dictionary<(string Subject, string Rule), Finding> ByKey(Assessment assessment) =>
        assessment.Findings.ToDictionary(finding => (finding.Subject.Key, finding.Rule));

    private Flip Of(
        ServiceRecord record,
        Finding? was,
        Finding? wouldBe,
        ImmutableArray<(ChangeKind Kind, Finding? Finding)> tried
    )
    {
        var told = (wouldBe ?? was)!;
        var sheets = SheetsOf(record, told.Subject);
        var rule = now.InForce.GetValueOrDefault(told.Rule) ?? old.InForce[told.Rule];
        return new()
        {
            Rule = told.Rule,
            Title = rule.Title,
            Subject = told.Subject,
            Was = was,
            WouldBe = wouldBe,
            Sheets = sheets,
            Gauges = GaugesOf(record, was, wouldBe),
            Causes =
            [
                .. Kinds(was, wouldBe, tried)
                    .Select(cause => new FlipCause(
                        cause.Kind,
                        cause.IsAlone,
                        Touching(cause.Kind, rule, sheets)
                    )),
            ],
        };
    }

    private IEnumerable<(ChangeKind Kind, bool IsAlone)> Kinds(
        Finding? was,
        Finding? wouldBe,
        ImmutableArray<(ChangeKind Kind, Finding? Finding)> tried
    )
    {
        if (mixtures.Length == 1)
        {
            return [(mixtures[0].Kind, true)];
        }

        var alone = tried.Where(one => !Flip.Differs(one.Finding, wouldBe)).ToList();
        if (alone.Count > 0)
        {
            return alone.Select(one => (one.Kind, true));
        }

        var some = tried.Where(one => Flip.Differs(one.Finding, was)).ToList();
        return some.Count > 0
            ? some.Select(one => (one.Kind, false))
            : mixtures.Select(one => (one.Kind, false));
    }

    /// <summary>The changes of a kind that touch a rule; all of the kind where the rule only follows another.</summary>
    private ImmutableArray<FolderChange> Touching(ChangeKind kind, Rule rule, ImmutableArray<string> sheets)
    {
        var alike = changes.Where(change => change.Kind == kind).ToList();
        var touching = kind switch
        {
            ChangeKind.Limit => Limits(alike, rule, sheets),
            ChangeKind.UnitKind => alike.Where(change => sheets.Contains(change.Of, StringComparer.Ordinal)),
            ChangeKind.Setting or ChangeKind.Register => alike,
            ChangeKind.Jurisdiction => alike.Where(change =>
                change.Of == rule.Id.Text || !change.Parts.IsEmpty
            ),
            _ => alike.Where(change => change.Of == rule.Id.Text),
        };
        ImmutableArray<FolderChange> some = [.. touching];
        return some.IsEmpty ? [.. alike] : some;
    }

    private static List<FolderChange> Limits(
        List<FolderChange> limits,
        Rule rule,
        ImmutableArray<string> sheets
    )
    {
        var ofSheets = limits.Where(change => sheets.Contains(change.Of, StringComparer.Ordinal)).ToList();
        var ofQuantity = LimitBehind.QuantityOf(rule.Check) is { } quantity
            ? ofSheets.Where(change => change.Quantity == quantity).ToList()
            : [];
        return ofQuantity.Count > 0 ? ofQuantity : ofSheets;
    }

    private static ImmutableArray<string> SheetsOf(ServiceRecord record, Subject subject) =>
        [
            .. record
                .Units.Where(unit => subject is not Subject.Unit one || one.Id == unit.Id)
                .Select(unit => unit.Sheet)
                .Distinct(StringComparer.Ordinal),
        ];

    private static ImmutableArray<string> GaugesOf(ServiceRecord record, Finding? was, Finding? wouldBe) =>
        [
            .. new[] { was, wouldBe }
                .OfType<Finding>()
                .SelectMany(finding => finding.Evidence)
                .Select(pointer => EvidenceGauge.Of(record, pointer))
                .OfType<string>()
                .Distinct(StringComparer.Ordinal)
                .Order(StringComparer.Ordinal),
        ];
}
