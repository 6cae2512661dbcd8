using System.Collections.Immutable;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Reporting.Reports.Words;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;

namespace ServiceRules.Reporting.Reports;

/// <summary>One unit arranged for printing.</summary>
internal sealed class UnitView
{
    /// <summary>More places than these on one quantity need the long form.</summary>
    private const int BriefComparisonsMax = 12;

    private readonly JobView _job;

    public UnitView(JobView job, UnitWork work)
    {
        _job = job;
        Work = work;
        Sheet = job.Sheet(work.Sheet);
        Findings =
        [
            .. job.Assessment.Findings.Where(finding =>
                finding.Subject is Subject.Unit unit && unit.Id == work.Id
            ),
        ];
        Places = [.. Findings.SelectMany(PlacesOf)];
    }

    public UnitWork Work { get; }

    public LimitSheet? Sheet { get; }

    public ImmutableArray<Finding> Findings { get; }

    /// <summary>Everything that was compared, with its place along the width.</summary>
    public ImmutableArray<ComparedPlace> Places { get; }

    public VerdictPrint Outcome => VerdictPrint.Of(_job.DispositionOf(Work.Id), _job.Assessment.State);

    public IEnumerable<Finding> NotIn =>
        Findings.Where(finding => finding.Verdict is Verdict.NotMet or Verdict.Unproven);

    /// <summary>What is told though the finding is met, as `check` does, and what was read and judged by no rule.</summary>
    public IEnumerable<string> Remarks
    {
        get
        {
            var told = Findings
                .Where(finding => finding.Verdict is Verdict.Met)
                .SelectMany(finding => finding.Notices)
                .Where(notice => ToldThoughMet.Is(notice) || ZeroCorrected.IsTold(notice))
                .Distinct(StringComparer.Ordinal);
            var unjudged = _job.Unjudged(Work);
            return unjudged.IsEmpty
                ? told
                : told.Append(
                    $"read, and judged by no rule: {ReportWords.Listed([.. unjudged.Select(ReportWords.Of)])}"
                );
        }
    }

    /// <summary>Nothing was turned, ground or fitted, and little was measured.</summary>
    public bool IsBrief =>
        Work.Entries.All(entry => entry is Reading)
        && Places.Select(place => place.Comparison.Quantity).Distinct().Count() <= 1
        && Places.Length <= BriefComparisonsMax;

    /// <summary>
    /// How a quantity stands on the unit as a whole: the worst of every finding about it, and what is known or was seen.
    /// Null when nothing was asked of it.
    /// </summary>
    public QuantityMark? MarkOf(MeasuredQuantity quantity)
    {
        // That a reading is there or fresh says nothing good about what it read.
        var about = Findings
            .Where(finding =>
                _job.QuantityOf(finding) == quantity
                && finding.Verdict != Verdict.NotApplicable
                && (finding.Verdict != Verdict.Met || !_job.IsAboutReading(finding))
            )
            .ToList();
        if (about.Count == 0)
        {
            return null;
        }
        var worst = Places
            .Where(place => place.Comparison.Quantity == quantity)
            .OrderBy(Rank)
            .ThenBy(place => place.Kind)
            .ThenBy(place => place.IsEnd)
            .FirstOrDefault();
        var verdict = about.Select(finding => finding.Verdict).MinBy(Rank);
        return new QuantityMark(
            verdict,
            ReportWords.Of(quantity, worst?.Kind ?? FigureKind.Itself),
            worst is null ? Seen(quantity) : LengthPrint.Known(worst.Comparison, SystemOf(worst.Comparison))
        );
    }

    /// <summary>The units in which a quantity was read on this unit.</summary>
    public UnitSystem SystemOf(MeasuredQuantity quantity) => ReadingUnits.Of(Work, quantity);

    /// <summary>The units in which a comparison is told.</summary>
    public UnitSystem SystemOf(Comparison comparison) => comparison.ToldIn ?? SystemOf(comparison.Quantity);

    /// <summary>
    /// The places of one quantity, one comparison each: the worst verdict, and among equals the tightest limits.
    /// </summary>
    public IReadOnlyList<ComparedPlace> Telling(
        MeasuredQuantity quantity,
        FigureKind kind = FigureKind.Itself
    ) =>
        [
            .. Places
                .Where(place =>
                    place.Comparison.Quantity == quantity && place.Kind == kind && place.Along is not null
                )
                .GroupBy(place => place.Comparison.Place, StringComparer.Ordinal)
                .Select(group => group.OrderBy(Rank).ThenBy(ZoneWidth).First())
                .OrderBy(place => place.Along),
        ];

    public static int Rank(ComparedPlace place) => Rank(place.Comparison.Verdict);

    public static int Rank(Verdict verdict) =>
        verdict switch
        {
            Verdict.NotMet => 0,
            Verdict.Unproven => 1,
            _ => 2,
        };

    private string Seen(MeasuredQuantity quantity) =>
        Work
            .Entries.OfType<Reading>()
            .LastOrDefault(reading => reading.Quantity == quantity && reading.Withdrawn is null)
            is { } last
            ? BenchWords.Observed(last.Observed)
            : "not read";

    private static decimal ZoneWidth(ComparedPlace place) =>
        place.Comparison is { LowerLimit: { } lower, UpperLimit: { } upper }
            ? (upper - lower).Millimetres
            : decimal.MaxValue;

    private IEnumerable<ComparedPlace> PlacesOf(Finding finding) =>
        finding.Comparisons.Select(comparison => new ComparedPlace(
            finding,
            comparison,
            _job.KindOf(finding),
            ComparedPlace.Position(comparison.Place, Sheet)
        ));
}
