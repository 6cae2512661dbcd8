using System.Collections.Immutable;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;

namespace ServiceRules.Engine.Tests;

/// <summary>Small jobs and rules; checks are answered by a table that the test writes.</summary>
internal static class Jobs
{
    public static readonly DateOnly Day = new(2026, 4, 13);

    public static readonly AssessmentDigests Digests = new("sha256:r", "sha256:c", "sha256:p");

    public static readonly Basis Practice = new(BasisKind.CommonPractice, null, null);

    public static readonly RecordedTime Noon = RecordedTime
        .Parse("2026-04-13T12:00:00Z")
        .TryGet(out var time, out _)
        ? time
        : null!;

    public static LimitSheet Sheet(string id, BedknifeMounting bedknife = BedknifeMounting.Moving) =>
        new()
        {
            Id = new(id),
            Title = id,
            Basis = Practice,
            ReelDiameter = Print("125 mm"),
            Blades = 9,
            Width = Print("510 mm"),
            Bedknife = bedknife,
            Adjusters =
            [
                new()
                {
                    Kind = AdjusterKind.Clearance,
                    Disturbs =
                        bedknife == BedknifeMounting.Moving
                            ? [new(MeasuredQuantity.HeightOfCut, Print("0.010 mm"), 2)]
                            : [new(MeasuredQuantity.ShieldGap, null, null)],
                },
                new()
                {
                    Kind = AdjusterKind.Height,
                    Disturbs = [new(MeasuredQuantity.GroomerHeight, null, null)],
                },
                new() { Kind = AdjusterKind.Groomer },
                new() { Kind = AdjusterKind.Shield },
                new() { Kind = AdjusterKind.Bearings },
            ],
            Quantities =
            [
                new() { Quantity = MeasuredQuantity.Clearance, Basis = Practice },
                new() { Quantity = MeasuredQuantity.HeightOfCut, Basis = Practice },
            ],
        };

    public static UnitWork Unit(string id, string sheet = "small", params BenchEntry[] entries) =>
        new()
        {
            Id = new(id),
            Sheet = sheet,
            Entries = [.. entries],
        };

    public static ServiceRecord Record(params UnitWork[] units) =>
        new()
        {
            Id = new("job-1"),
            Date = Day,
            Machine = new(new("machine-1"), "greens", null),
            Tasks = [ServiceTask.HeightCheck],
            People = [new(new("tech-01"), JobRole.Performs), new(new("lead-01"), JobRole.Leads)],
            Units = [.. units],
            SignOff = new(new("tech-01"), Noon),
        };

    public static readonly AssessmentContext Context = new()
    {
        Site = "site",
        Zone = SiteZone.Of("Etc/UTC", "1", 0, []).TryGet(out var zone, out _) ? zone : null!,
        People =
        [
            new(new("tech-01"), true, null, null, MayRelease: true),
            new(new("lead-01"), false, null, null, MayRelease: true),
            new(new("lead-02"), true, null, null),
        ],
    };

    /// <summary>A written procedure of one source, with or without something to switch it off.</summary>
    public static Procedure Procedure(string? isolator) =>
        new()
        {
            Id = new("P-1"),
            Title = "procedure",
            Machines = [new("machine-1")],
            Place = WorkPlace.OnBench,
            Sources =
            [
                new()
                {
                    Id = new("supply"),
                    Title = "supply",
                    Isolator = isolator,
                    Proof = "tried",
                },
            ],
            Controls = new(false, false, false, false),
        };

    public static JobFrame Frame(
        ServiceRecord record,
        IEnumerable<Rule> rules,
        AssessmentContext? context = null,
        Func<UnitWork, ContactSchool?>? school = null
    )
    {
        var sheets = ImmutableArray.Create(Sheet("small"), Sheet("large", BedknifeMounting.Fixed));
        var book = new RuleBook([Pack([.. rules])], sheets);
        return new()
        {
            Record = record,
            Context = context ?? Context,
            Days = JobDays.Of(record, context ?? Context),
            Book = book,
            Procedure = null,
            Events = [],
            State =
                record.SignOff is null ? RecordState.Open
                : record.FollowUp is null ? RecordState.SignedOff
                : RecordState.FollowedUp,
            Units =
            [
                .. record.Units.Select(
                    (unit, index) =>
                        new UnitFrame
                        {
                            Work = unit,
                            Index = index,
                            Sheet = book.Sheet(unit.Sheet)!,
                            Tasks = unit.Tasks.IsEmpty ? record.Tasks : unit.Tasks,
                            School = school?.Invoke(unit),
                            Targets = [],
                            Known = [],
                        }
                ),
            ],
        };
    }

    public static RulePack Pack(params Rule[] rules) => Pack("base", PackLayer.Base, rules);

    public static RulePack Pack(string id, PackLayer layer, params Rule[] rules) =>
        new()
        {
            Id = new(id),
            Version = "1",
            Title = id,
            Layer = layer,
            Rules = [.. rules],
        };

    public static Rule Rule(
        string id,
        RuleScope scope = RuleScope.Unit,
        Check? check = null,
        Severity severity = Severity.Hold,
        UnprovenPolicy unproven = UnprovenPolicy.Hold,
        Applicability? when = null
    ) =>
        new()
        {
            Id = new(id),
            Title = id,
            Requirement = id,
            Scope = scope,
            Check =
                check ?? new Check.Presence(MeasuredQuantity.Edge, RequiredPhase.Found, RequiredPlaces.Any),
            Severity = severity,
            Unproven = unproven,
            When = when ?? Applicability.Always,
            Basis = Practice,
            Advice = id,
        };

    public static Check LimitOn(MeasuredQuantity quantity) =>
        new Check.LimitOnQuantity(quantity, LimitSource.Sheet, CheckedPlaces.Stations);

    public static CheckOutcome Outcome(Verdict verdict, FindingReason reason = FindingReason.None) =>
        new()
        {
            Verdict = verdict,
            Reason = reason,
            Statement = verdict.ToString(),
        };

    /// <summary>Answers by rule and unit identity, or by rule alone; everything else is met.</summary>
    public static Func<Rule, JobFrame, UnitFrame?, CheckOutcome> Answers(
        params (string On, CheckOutcome Outcome)[] answers
    )
    {
        var table = answers.ToDictionary(a => a.On, a => a.Outcome, StringComparer.Ordinal);
        return (rule, _, unit) =>
            table.TryGetValue($"{rule.Id}@{unit?.Work.Id}", out var on) ? on
            : table.TryGetValue(rule.Id.Text, out var any) ? any
            : Outcome(Verdict.Met);
    }

    public static Finding Of(this Assessment assessment, string rule, string subject) =>
        assessment.Findings.Single(f => f.Rule == rule && f.Subject.Key == subject);

    public static Disposition OfUnit(this Assessment assessment, string unit) =>
        assessment.Units.Single(u => u.Unit.Text == unit).Outcome.Disposition;

    public static DualPrint Print(string text) =>
        PrintedLength.Parse(text).TryGet(out var print, out var failure)
            ? DualPrint.Of(print)
            : throw new ArgumentException(failure.ToString(), nameof(text));
}
