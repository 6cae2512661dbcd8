using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Tests.Evaluation;

/// <summary>A small sheet, record and context, and short words for what is written down at the bench.</summary>
internal static class Sample
{
    public static readonly DateOnly Day = new(2026, 4, 13);

    private static readonly Basis Practice = new(BasisKind.CommonPractice, null, null);

    public static PrintedLength L(string text) =>
        PrintedLength.Parse(text).TryGet(out var value, out var failure)
            ? value
            : throw new ArgumentException(failure.ToString(), nameof(text));

    public static DualPrint D(string governing, string? alternate = null) =>
        alternate is null ? DualPrint.Of(L(governing))
        : DualPrint.Of(L(governing), L(alternate)).TryGet(out var value, out var failure) ? value
        : throw new ArgumentException(failure.ToString(), nameof(alternate));

    public static Length Mm(decimal millimetres) => Length.FromMillimetres(millimetres);

    /// <summary>A moving bedknife: a clearance step shifts the height by 0.010 mm at most, three make it stale.</summary>
    public static LimitSheet Sheet { get; } =
        new()
        {
            Id = new("sheet-a"),
            Title = "125 mm / 9 / 510 mm",
            Basis = Practice,
            ReelDiameter = D("125 mm"),
            Blades = 9,
            Width = D("510 mm"),
            Bedknife = BedknifeMounting.Moving,
            Adjusters =
            [
                new()
                {
                    Kind = AdjusterKind.Clearance,
                    Step = D("0.0005 in", "0.012 mm"),
                    LeftAt = L("0 mm"),
                    RightAt = L("510 mm"),
                    Disturbs = [new(MeasuredQuantity.HeightOfCut, D("0.010 mm"), 2)],
                },
                new()
                {
                    Kind = AdjusterKind.Height,
                    LeftAt = L("0 mm"),
                    RightAt = L("510 mm"),
                    Disturbs = [new(MeasuredQuantity.GroomerHeight, null, null)],
                },
                new() { Kind = AdjusterKind.HeightRange },
                new()
                {
                    Kind = AdjusterKind.FrontRoller,
                    Disturbs = [new(MeasuredQuantity.HeightOfCut, null, null)],
                },
                new() { Kind = AdjusterKind.Groomer },
            ],
            Quantities =
            [
                new()
                {
                    Quantity = MeasuredQuantity.Clearance,
                    LeftStation = L("51 mm"),
                    RightStation = L("459 mm"),
                    Lower = D("0.0005 in", "0.012 mm"),
                    Upper = D("0.0025 in", "0.064 mm"),
                    Schools =
                    [
                        new(ContactSchool.AirGap, D("0.001 in", "0.025 mm"), D("0.0015 in", "0.038 mm")),
                        new(ContactSchool.LightContact, null, null),
                    ],
                    Basis = Practice,
                },
                new()
                {
                    Quantity = MeasuredQuantity.HeightOfCut,
                    LeftStation = L("51 mm"),
                    RightStation = L("459 mm"),
                    ToleranceAboutTarget = D("0.10 mm"),
                    SideToSide = D("0.05 mm"),
                    AcrossUnits = D("0.10 mm"),
                    AdjacentEnds = D("0.10 mm"),
                    Basis = Practice,
                },
                new()
                {
                    Quantity = MeasuredQuantity.FrontRoller,
                    LeftStation = L("51 mm"),
                    RightStation = L("459 mm"),
                    Parallelism = D("0.002 in", "0.05 mm"),
                    Basis = Practice,
                },
                new()
                {
                    Quantity = MeasuredQuantity.ShieldGap,
                    Lower = D("1.0 mm"),
                    Upper = D("2.0 mm"),
                    Basis = Practice,
                },
                new()
                {
                    Quantity = MeasuredQuantity.ReelDiameter,
                    WornBelow = D("4.8 in", "122 mm"),
                    Basis = Practice,
                },
            ],
        };

    public static SiteZone Zone { get; } = ZoneOf("Etc/UTC", 0);

    public static SettingOrder Order { get; } =
        new()
        {
            Id = new("SO-1"),
            By = new("lead-01"),
            From = new(2026, 3, 1),
            Targets = [new("golf-greens", null, MeasuredQuantity.HeightOfCut, L("4.00 mm"), null)],
            Schools = [new("sheet-a", ContactSchool.AirGap)],
        };

    public static AssessmentContext Context { get; } =
        new()
        {
            Site = "alder-reach",
            Zone = Zone,
            SettingOrders = [Order],
        };

    public static ImmutableArray<Instrument> Instruments { get; } =
    [
        new()
        {
            Id = new("HG-01"),
            Kind = InstrumentKind.HeightGauge,
            Resolution = L("0.01 mm"),
            Repeatability = L("0.003 mm"),
            ZeroCheck = new(L("0.000 mm"), null),
            Calibration = new(new(2026, 1, 10), new(2027, 1, 10), L("0.010 mm"), 2m),
        },
        new()
        {
            Id = new("FG-01"),
            Kind = InstrumentKind.FeelerGauge,
            Tolerance = L("0.0001 in"),
            Inspection = new(new(2026, 3, 2), Condition.Sound),
        },
        new() { Id = new("FG-02"), Kind = InstrumentKind.FeelerGauge },
        new()
        {
            Id = new("DG-01"),
            Kind = InstrumentKind.DialGauge,
            Resolution = L("0.001 mm"),
            Repeatability = L("0.0001 mm"),
            ZeroCheck = new(L("0.000 mm"), null),
        },
        LikeTheHeightGauge("DG-02", InstrumentKind.DialGauge),
        LikeTheHeightGauge("CL-01", InstrumentKind.Calliper),
    ];

    private static Instrument LikeTheHeightGauge(string id, InstrumentKind kind) =>
        new()
        {
            Id = new(id),
            Kind = kind,
            Resolution = L("0.01 mm"),
            Repeatability = L("0.003 mm"),
            ZeroCheck = new(L("0.000 mm"), null),
            Calibration = new(new(2026, 1, 10), new(2027, 1, 10), L("0.010 mm"), 2m),
        };

    public static SiteZone ZoneOf(string name, int offset, params ZoneTransition[] transitions) =>
        SiteZone.Of(name, "2025b", offset, [.. transitions]).TryGet(out var zone, out var failure)
            ? zone
            : throw new ArgumentException(failure.ToString(), nameof(name));

    public static RecordedTime At(string text) =>
        RecordedTime.Parse(text).TryGet(out var time, out var failure)
            ? time
            : throw new ArgumentException(failure.ToString(), nameof(text));

    public static RuleBook Book(LimitSheet? sheet = null) => new([], [sheet ?? Sheet]);

    public static UnitWork Unit(params BenchEntry[] entries) =>
        new()
        {
            Id = new("U-01-1"),
            Position = 1,
            Sheet = "sheet-a",
            Entries = [.. entries],
        };

    public static ServiceRecord Record(params UnitWork[] units) =>
        new()
        {
            Id = new("J-1"),
            Date = Day,
            Machine = new(new("M-01"), "golf-greens", null),
            Tasks = [ServiceTask.FullService],
            People = [new(new("tech-01"), JobRole.Performs)],
            Instruments = Instruments,
            Units = [.. units],
            SignOff = new(new("tech-01"), At("2026-04-13T12:00:00Z")),
        };

    public static JobFrame Frame(params BenchEntry[] entries) =>
        FrameBuilder.Build(Record(Unit(entries)), Context, Book());

    /// <summary>What is known as left of a quantity at a distance from the left end.</summary>
    public static PlaceKnown Left(JobFrame frame, MeasuredQuantity quantity, decimal? station = null) =>
        frame
            .Units[0]
            .Of(quantity)!
            .Left.Single(place => place.Station == (station is { } at ? Mm(at) : null));

    public static Rule RuleFor(Check check, RuleDecision? decision = null) =>
        new()
        {
            Id = new("rule-under-test"),
            Title = "Rule under test",
            Requirement = "It is so.",
            Scope = RuleScope.Unit,
            Check = check,
            Decision = decision ?? RuleDecision.Guarded,
            Severity = Domain.Verdicts.Severity.Hold,
            Basis = Practice,
            Advice = "Do something about it.",
        };

    public static CheckOutcome Judge(Check check, params BenchEntry[] entries) =>
        Judge(check, Frame(entries));

    public static CheckOutcome Judge(Check check, JobFrame frame) =>
        CheckEvaluation.Evaluate(RuleFor(check), frame, frame.Units[0]);

    public static Reading Feeler(string station, string feeler, bool passes, string with = "FG-01") =>
        new()
        {
            Quantity = MeasuredQuantity.Clearance,
            Station = StationOf(station),
            Observed = new Observation.FeelerTest([L(feeler)], passes),
            Instrument = new(with),
        };

    public static Reading Measured(
        MeasuredQuantity quantity,
        string? station,
        string value,
        string? with = Fitting
    ) =>
        new()
        {
            Quantity = quantity,
            Station = station is null ? null : StationOf(station),
            Observed = new Observation.Measured(L(value)),
            Instrument =
                with is null ? null
                : with == Fitting ? new Id<Instrument>(FittingFor(quantity))
                : new Id<Instrument>(with),
        };

    private const string Fitting = "fitting";

    private static string FittingFor(MeasuredQuantity quantity) =>
        quantity switch
        {
            MeasuredQuantity.Clearance or MeasuredQuantity.BearingPlay => "DG-02",
            MeasuredQuantity.FrontRollerOnPlate or MeasuredQuantity.RearRollerOnPlate => "DG-02",
            MeasuredQuantity.HeightOfCut or MeasuredQuantity.GroomerHeight or MeasuredQuantity.FrontRoller =>
                "HG-01",
            _ => "CL-01",
        };

    public static Reading Height(string station, string value, string? with = "HG-01") =>
        Measured(MeasuredQuantity.HeightOfCut, station, value, with);

    public static Reading Contact(ContactState state, string? station = null) =>
        new()
        {
            Quantity = MeasuredQuantity.Clearance,
            Station = station is null ? null : StationOf(station),
            Observed = new Observation.Contact(state),
        };

    public static Reading Seen(MeasuredQuantity quantity, Condition condition) =>
        new() { Quantity = quantity, Observed = new Observation.Seen(condition) };

    public static Adjustment Steps(AdjusterKind adjuster, Side side, AdjustDirection direction, int count) =>
        new()
        {
            Adjuster = adjuster,
            Side = side,
            Direction = direction,
            Amount = new AdjustmentAmount.Steps(count),
        };

    public static Adjustment Open(Side side, int count) =>
        Steps(AdjusterKind.Clearance, side, AdjustDirection.Open, count);

    public static Adjustment Moved(AdjusterKind adjuster, Side side = Side.Both) =>
        new()
        {
            Adjuster = adjuster,
            Side = side,
            Amount = new AdjustmentAmount.NotStated(),
        };

    private static Station StationOf(string text) =>
        text switch
        {
            "left" => new Station.Named(StationName.Left),
            "middle" => new Station.Named(StationName.Middle),
            "right" => new Station.Named(StationName.Right),
            _ => new Station.AtDistance(L(text)),
        };
}
