using System.Collections.Immutable;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Reports;
using ServiceRules.Domain;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Engine.Judging;
using ServiceRules.Reporting.Layout;
using ServiceRules.Reporting.Reports.Words;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;

namespace ServiceRules.Reporting.Reports;

/// <summary>An assessed job arranged for printing, with what every section needs to say it.</summary>
internal sealed class JobView
{
    private readonly Dictionary<string, Rule> _rules;
    private readonly Lazy<JobFrame> _frame;

    public JobView(Assessed assessed, ReportTerms terms, ITextMeasure measure, DateTimeOffset issuedAt)
    {
        Assessed = assessed;
        Terms = terms;
        Measure = measure;
        IssuedAt = issuedAt;
        _rules = assessed
            .Book.Packs.SelectMany(pack => pack.Rules)
            .GroupBy(rule => rule.Id.Text, StringComparer.Ordinal)
            .ToDictionary(group => group.Key, group => group.Last(), StringComparer.Ordinal);
        _frame = new(() => FrameBuilder.Build(assessed.Record, assessed.Context, assessed.Book));
        Units = [.. assessed.Record.Units.Select(unit => new UnitView(this, unit))];
    }

    public Assessed Assessed { get; }

    public ReportTerms Terms { get; }

    public ITextMeasure Measure { get; }

    public DateTimeOffset IssuedAt { get; }

    /// <summary>The log in which record and assessment stand; null when they were not filed.</summary>
    public FiledIn? Log { get; init; }

    public ServiceRecord Record => Assessed.Record;

    public Assessment Assessment => Assessed.Assessment;

    public ImmutableArray<UnitView> Units { get; }

    /// <summary>Every unit was only looked at and read in few places: one line for each is enough.</summary>
    public bool IsBrief => Units.All(unit => unit.IsBrief);

    /// <summary>A sheet of quick checks has small headings: it must stay one page.</summary>
    public TextStyle Heading => IsBrief ? Palette.SubHeading : Palette.Heading;

    public TextStyle Told => IsBrief ? Palette.Tiny : Palette.Small;

    public TextStyle ToldBold => IsBrief ? Palette.TinyBold : Palette.SmallBold;

    public TextStyle ToldQuiet => IsBrief ? Palette.TinyQuiet : Palette.SmallQuiet;

    public VerdictPrint Outcome => VerdictPrint.Of(Assessment.Job.Disposition, Assessment.State);

    public IEnumerable<Finding> JobFindings =>
        Assessment.Findings.Where(finding => finding.Subject is Subject.Job);

    public IEnumerable<Finding> SetFindings =>
        Assessment.Findings.Where(finding => finding.Subject is Subject.Set);

    /// <summary>What the registers of the site say or lack; of no weight on the job.</summary>
    public IEnumerable<Finding> ProgrammeFindings =>
        Assessment.Findings.Where(finding => finding.Subject is Subject.Programme);

    /// <summary>What keeps the job in, gravest first.</summary>
    public IEnumerable<Finding> Keeping =>
        Assessment
            .Findings.Where(finding => finding.Effect is Effect.Stop or Effect.Hold)
            .OrderByDescending(finding => finding.Effect);

    /// <summary>
    /// A duty of safe work, or a check of the entries beside such duties: there are many, and a report of safe work tells
    /// them one by one.
    /// </summary>
    public bool IsCountedDuty(string id) =>
        Rule(id) is { } rule
        && (rule.Basis.Kind == BasisKind.Duty || (rule.Check is Check.Credibility && HasDuties));

    private bool HasDuties => _rules.Values.Any(rule => rule.Basis.Kind == BasisKind.Duty);

    /// <summary>What was read on a unit and still holds, and that no rule held against anything.</summary>
    public ImmutableArray<MeasuredQuantity> Unjudged(UnitWork work) =>
        UnjudgedReadings.Of(
            Assessment.Findings,
            finding => Rule(finding.Rule),
            _frame.Value.Units.First(unit => unit.Work.Id == work.Id)
        );

    public Rule? Rule(string id) => _rules.GetValueOrDefault(id);

    /// <summary>The finding about safety defects of the job that tells all of this one; null: none does.</summary>
    public Finding? DefectTold(Finding finding) => Words.DefectTold.Of(finding, Assessment, _rules);

    /// <summary>The units in which the readings behind a finding were taken.</summary>
    public UnitSystem SystemOf(Finding finding) => ReadingUnits.Of(Record, finding);

    public string TitleOf(Finding finding) => Say(Rule(finding.Rule)?.Title ?? finding.Rule);

    /// <summary>What the figures of a finding are, by the check that made them.</summary>
    public FigureKind KindOf(Finding finding) =>
        Rule(finding.Rule)?.Check switch
        {
            Check.Relation => FigureKind.AboveOther,
            Check.Parallelism => FigureKind.OutOfParallel,
            Check.Spread => FigureKind.Spread,
            Check.ReelForm => FigureKind.Form,
            Check.Twist => FigureKind.Twist,
            _ => FigureKind.Itself,
        };

    /// <summary>The quantity that a finding speaks of, by its check; null for order, events and the like.</summary>
    public MeasuredQuantity? QuantityOf(Finding finding) =>
        Rule(finding.Rule)?.Check switch
        {
            Check.LimitOnQuantity check => check.Quantity,
            Check.ProceduralLimit check => check.Quantity,
            Check.Spread check => check.Quantity,
            Check.Parallelism check => check.Quantity,
            Check.ReelForm => MeasuredQuantity.ReelDiameter,
            Check.Twist => MeasuredQuantity.FrontRollerOnPlate,
            Check.Relation check => check.Quantity,
            Check.Freshness check => check.Quantity,
            Check.StepObtained check => check.Quantity,
            Check.Presence check => check.Quantity,
            Check.SoundCondition check => check.Quantity,
            _ => null,
        };

    /// <summary>Whether a finding only asks that a reading is there or fresh.</summary>
    public bool IsAboutReading(Finding finding) =>
        Rule(finding.Rule)?.Check is Check.Freshness or Check.Presence;

    /// <summary>In the site's own names for the parts.</summary>
    public string Say(string text) => TradeVocabulary.Say(text, Terms.Trade);

    public LimitSheet? Sheet(string id) => Assessed.Book.Sheet(id);

    public Disposition DispositionOf(Id<UnitWork> unit) =>
        Assessment
            .Units.Where(outcome => outcome.Unit == unit)
            .Select(outcome => outcome.Outcome.Disposition)
            .FirstOrDefault(Disposition.Hold);

    public Row MarkedLine(VerdictPrint print, params Span[] spans) =>
        Sections.MarkedLine.Of(print, Measure, spans);

    public Row MarkedLine(VerdictPrint print, Paragraph? below, params Span[] spans) =>
        Sections.MarkedLine.Of(print, Measure, below, spans);
}
