using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;

namespace ServiceRules.Application.History;

/// <summary>A history as a document: what other programs read of it. Lengths in millimetres, times in hours.</summary>
public sealed record HistoryDocument(
    DateOnly From,
    DateOnly Through,
    HistoryDocument.Count Files,
    ImmutableArray<HistoryDocument.Action> Actions,
    ImmutableArray<HistoryDocument.OneUnit> Units,
    ImmutableArray<HistoryDocument.Offset> Offsets,
    ImmutableArray<HistoryDocument.Gauge> Gauges,
    ImmutableArray<HistoryDocument.GaugePair> GaugePairs,
    ImmutableArray<HistoryDocument.Process> Processes
)
{
    /// <summary>Files behind it.</summary>
    public sealed record Count(int Records, int Repeated, int Superseded, int Unusable);

    /// <summary>Something that needs somebody.</summary>
    public sealed record Action(
        ActionKind Kind,
        DateOnly? Due,
        DateOnly? Earliest,
        Id<UnitWork>? Unit,
        Id<MachineVisit>? Machine,
        MeasuredQuantity? Quantity,
        AdjusterKind? Adjuster,
        ImmutableArray<Id<Instrument>> Gauges
    );

    /// <summary>One unit.</summary>
    public sealed record OneUnit(
        string Site,
        Id<UnitWork> Unit,
        Id<MachineVisit> Machine,
        string? Area,
        string Sheet,
        string? Reel,
        string? Bedknife,
        int Jobs,
        RunningTime? PerWeek,
        ImmutableArray<Size> Sizes,
        Relief? Relief,
        Grind? Grind,
        TakenUp? TakeUp,
        ImmutableArray<Step> Steps,
        Shield? Shield
    );

    /// <summary>A wearing size.</summary>
    public sealed record Size(
        MeasuredQuantity Quantity,
        ImmutableArray<Point> Points,
        Length? Limit,
        Length? Remaining,
        Trend? Robust,
        Trend? LeastSquares,
        WearRate? Running,
        Length? PerGrind,
        int GrindsSeen,
        int? GrindsLeft
    );

    /// <summary>A size as a job left it.</summary>
    public sealed record Point(Id<ServiceRecord> Record, DateOnly Date, OperatingHours? Hours, Length Value);

    /// <summary>A line through readings and when it comes to the limit.</summary>
    public sealed record Trend(
        WearRate Rate,
        decimal? Level,
        RunningTime? Left,
        RunningTime? Earliest,
        RunningTime? Latest,
        DateOnly? On,
        DateOnly? EarliestOn,
        DateOnly? LatestOn
    );

    /// <summary>When the relief is due.</summary>
    public sealed record Relief(DateOnly ReadOn, Length LandThen, Length LandNow, Length DiameterLeft);

    /// <summary>When the next grind is due.</summary>
    public sealed record Grind(DateOnly? Since, RunningTime Hours, RunningTime? DueIn, DateOnly? On);

    /// <summary>How fast the clearance is taken up.</summary>
    public sealed record TakenUp(
        DateOnly Since,
        bool SetAnew,
        decimal Steps,
        RunningTime Hours,
        WearRate Rate,
        decimal? TimesOwn,
        bool IsSignal,
        decimal? TimesNeighbours
    );

    /// <summary>What a step of an adjuster really does.</summary>
    public sealed record Step(
        AdjusterKind Adjuster,
        MeasuredQuantity Quantity,
        int Trials,
        int Jobs,
        Length? Lower,
        Length? Best,
        Length? Upper,
        Length? Stated,
        StepAnswer? Answer
    );

    /// <summary>Whether a shield gap follows the reel.</summary>
    public sealed record Shield(
        DateOnly Since,
        Length GapThen,
        DateOnly On,
        Length GapRead,
        Length Expected,
        bool Follows,
        bool LooksCopied
    );

    /// <summary>How a machine cuts off its bench height.</summary>
    public sealed record Offset(
        Id<MachineVisit> Machine,
        string? Area,
        int Season,
        int Pairs,
        Length? Median,
        Length? Least,
        Length? Greatest
    );

    /// <summary>The zero checks of a gauge.</summary>
    public sealed record Gauge(
        Id<Instrument> Instrument,
        InstrumentKind Kind,
        int Checks,
        DateOnly From,
        DateOnly Until,
        ImmutableArray<Check> Off,
        Length? Drift
    );

    /// <summary>A zero check that came out off.</summary>
    public sealed record Check(Id<ServiceRecord> Record, DateOnly Date, PrintedLength Error);

    /// <summary>Two gauges that read the same places.</summary>
    public sealed record GaugePair(
        MeasuredQuantity Quantity,
        Id<Instrument> First,
        Id<Instrument> Second,
        int Pairs,
        Length Difference,
        decimal WorstEn,
        int Disagreeing,
        bool IsTheGauge
    );

    /// <summary>What the shop leaves.</summary>
    public sealed record Process(
        ImmutableArray<string> Rules,
        string Sheet,
        MeasuredQuantity Quantity,
        int Readings,
        bool IsFromMiddle,
        Length Mean,
        Length? StandardDeviation,
        bool? Drifts,
        bool? IsGamma,
        Length? Lower,
        Length? Upper,
        decimal? OutAmongAccepted,
        decimal? Consumers,
        decimal? Producers
    );
}
