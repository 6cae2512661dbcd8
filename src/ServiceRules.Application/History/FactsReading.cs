using System.Collections.Immutable;
using System.Globalization;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Filed;
using ServiceRules.Application.Library;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Trade;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Engine;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.History;

/// <summary>Takes from one record what a history needs, so that the record itself need not be kept.</summary>
/// <param name="book">The rules in force, for records that bring none.</param>
/// <param name="site">The site's registers, likewise.</param>
/// <param name="engine">Judges each record, to learn what its values were held against.</param>
internal sealed class FactsReading(RuleBook book, SiteRegisters site, RuleEngine engine)
{
    private const string Unsaid = "";
    private const decimal Half = 0.5m;

    // Nothing is stored of these assessments; the engine only has to tell one rule book from another.
    private readonly Dictionary<RuleBook, (RuleBook Limits, string Name)> books = new(
        ReferenceEqualityComparer.Instance
    );

    public RecordFacts Of(FiledRecord filed)
    {
        var record = filed.Record;
        var context = filed.Context ?? ContextFreezer.Freeze(site, record);
        var rules = filed.Book ?? book;
        var frame = FrameBuilder.Build(record, context, rules);
        var visits = VisitsOf(frame);
        return new(
            record.Date,
            visits,
            [.. record.Instruments.SelectMany(gauge => ZeroCheckOf(gauge, record))],
            [.. frame.Units.SelectMany(unit => GaugePairs.Within(unit, frame))],
            [.. ValuesLeft(frame, context, rules)],
            OffsetOf(record, visits)
        );
    }

    /// <summary>The height found on the bench gauge beside the height that the turf had been left at.</summary>
    private static OffsetSeen? OffsetOf(ServiceRecord record, ImmutableArray<UnitVisit> visits)
    {
        var found = visits
            .Select(visit => visit.Mean(MeasuredQuantity.HeightOfCut, asFound: true))
            .OfType<SizeRead>()
            .ToList();
        if (record.Machine.Tested?.EffectiveHeight is not { } effective || found.Count == 0)
        {
            return null;
        }

        var bench = Length.FromMillimetres(found.Average(height => height.Value.Millimetres));
        return new(
            visits[0].Site,
            record.Machine.Id,
            record.Machine.Area,
            record.Date.Year,
            new HeightPair(bench, effective.Value),
            effective.System
        );
    }

    /// <summary>What a job left of its units, and nothing that takes an engine.</summary>
    public static ImmutableArray<UnitVisit> VisitsOf(JobFrame frame) =>
        [.. frame.Units.Select(unit => Visit(unit, frame))];

    private static UnitVisit Visit(UnitFrame unit, JobFrame frame)
    {
        var record = frame.Record;
        var work = unit.Work;
        var places = unit
            .Known.SelectMany(known =>
                known
                    .Found.Select(place => (known.Quantity, Place: place, Found: true))
                    .Concat(known.Left.Select(place => (known.Quantity, Place: place, Found: false)))
            )
            .Where(one => one.Place.Knowledge is MeasuredValue)
            .ToList();
        return new()
        {
            Site = frame.Context.Site,
            Record = record.Id,
            Day = record.Date,
            Machine = record.Machine,
            Place = record.Place,
            Unit = work.Id,
            Position = work.Position,
            Reel = work.Reel,
            Bedknife = work.Bedknife,
            Sheet = unit.Sheet,
            Places =
            [
                .. places
                    .Where(one => one.Place.Doubt == FindingReason.None)
                    .Select(one => new PlaceSeen(
                        one.Quantity,
                        one.Place.Station,
                        one.Place.Gauge,
                        (MeasuredValue)one.Place.Knowledge!,
                        one.Place.System,
                        one.Found,
                        !one.Found
                    )),
            ],
            Grindings = [.. work.Entries.OfType<Grinding>()],
            Fitted = [.. work.Entries.OfType<PartFitted>()],
            StepsIn = StepsIn(work.Entries),
            HasUncounted = ClearanceTurns(work.Entries)
                .Any(turn => turn.Amount is not AdjustmentAmount.Steps),
            Turned = [.. work.Entries.OfType<Adjustment>().Select(turn => turn.Adjuster).Distinct()],
            Tried = [.. unit.StepsTried, .. StepsCarried.Of(unit, frame)],
        };
    }

    private static IEnumerable<Adjustment> ClearanceTurns(ImmutableArray<BenchEntry> entries) =>
        entries.OfType<Adjustment>().Where(turn => turn.Adjuster == AdjusterKind.Clearance);

    /// <summary>Steps in less steps out, a step on one side counting half.</summary>
    private static decimal? StepsIn(ImmutableArray<BenchEntry> entries)
    {
        var turns = ClearanceTurns(entries).ToList();
        return turns.Count == 0
            ? null
            : turns.Sum(turn =>
                (turn.Amount as AdjustmentAmount.Steps)?.Count * SidesOf(turn) * WayOf(turn) ?? 0m
            );

        static decimal SidesOf(Adjustment turn) => turn.Side == Side.Both ? 1m : 0.5m;

        static int WayOf(Adjustment turn) => turn.Direction == AdjustDirection.Close ? 1 : -1;
    }

    private static IEnumerable<GaugeSeen> ZeroCheckOf(Instrument gauge, ServiceRecord record) =>
        new[] { gauge.ZeroCheck, gauge.ZeroCheckAfter }
            .OfType<ZeroCheck>()
            .Select(check => new GaugeSeen(
                gauge.Id,
                gauge.Kind,
                record.Id,
                record.Date,
                check.Error,
                GaugeStep.Of(gauge, check.Error)
            ));

    /// <summary>
    /// What rules on a quantity compared with limits, at gauging stations: the ends are reckoned from those and would
    /// count one reading twice.
    /// </summary>
    private IEnumerable<ValueLeft> ValuesLeft(JobFrame frame, AssessmentContext context, RuleBook rules)
    {
        var record = frame.Record;
        var (limits, name) = LimitsOf(rules);
        return engine
            .Assess(record, context, limits, new(Unsaid, Unsaid, name))
            .Findings.Where(finding => finding.Subject is Subject.Unit)
            .SelectMany(finding =>
            {
                var unit = frame.Units.First(one => one.Work.Id == ((Subject.Unit)finding.Subject).Id);
                return finding
                    .Comparisons.Where(one =>
                        !one.IsAtEnd
                        && one.Reason is not (FindingReason.GaugeUnfit or FindingReason.GaugeCannotRead)
                    )
                    .Select(one => Left(finding.Rule, unit, one, record));
            })
            .OfType<ValueLeft>();
    }

    /// <summary>What is set to a value, and not what wears: a diameter that shrinks is no process.</summary>
    private static bool IsSet(MeasuredQuantity quantity) =>
        quantity
            is not (
                MeasuredQuantity.ReelDiameter
                or MeasuredQuantity.BedknifeLip
                or MeasuredQuantity.LandWidth
            );

    private static ValueLeft? Left(string rule, UnitFrame unit, Comparison compared, ServiceRecord record)
    {
        if (compared is not { Value: { } value, Uncertainty: { } doubt })
        {
            return null;
        }

        var middle = compared is { LowerLimit: { } lower, UpperLimit: { } upper }
            ? (lower + upper) * 0.5m
            : (Length?)null;
        var off = middle ?? Length.Zero;
        return new(
            rule,
            unit.Work.Sheet,
            compared.Quantity,
            record.Id,
            unit.Work.Id,
            record.Date,
            value - off,
            compared.LowerLimit - off,
            compared.UpperLimit - off,
            compared.AcceptLower - off,
            compared.AcceptUpper - off,
            StandardOf(unit, compared.Quantity, value) ?? StandardUncertainty.From(doubt * Half),
            middle is not null,
            compared.Target is not null,
            compared.Place,
            SystemOf(unit.Work, compared.Quantity)
        );
    }

    /// <summary>u as the gauge gave it: U was made of it with a factor that is 2 only where much is known.</summary>
    private static StandardUncertainty? StandardOf(UnitFrame unit, MeasuredQuantity quantity, Length value) =>
        unit
            .Known.Where(known => known.Quantity == quantity)
            .SelectMany(known => known.Left)
            .Select(place => place.Knowledge)
            .OfType<MeasuredValue>()
            .FirstOrDefault(measured => measured.Value == value)
            ?.Uncertainty;

    private static UnitSystem SystemOf(UnitWork unit, MeasuredQuantity quantity) =>
        unit.Entries.OfType<Reading>()
            .Where(reading => reading.Quantity == quantity)
            .Select(reading => (reading.Observed as Observation.Measured)?.Value.System)
            .FirstOrDefault(system => system is not null)
        ?? UnitSystem.Metric;

    /// <summary>The rules that hold a set quantity against limits: the others take time, and say nothing here.</summary>
    private (RuleBook Limits, string Name) LimitsOf(RuleBook rules)
    {
        if (!books.TryGetValue(rules, out var limits))
        {
            limits = (
                rules with
                {
                    Packs =
                    [
                        .. rules.Packs.Select(pack =>
                            pack with
                            {
                                Rules =
                                [
                                    .. pack.Rules.Where(rule =>
                                        rule.Check is Check.LimitOnQuantity { Quantity: var quantity }
                                        && IsSet(quantity)
                                    ),
                                ],
                            }
                        ),
                    ],
                },
                string.Create(CultureInfo.InvariantCulture, $"book {books.Count}")
            );
            books.Add(rules, limits);
        }

        return limits;
    }
}
