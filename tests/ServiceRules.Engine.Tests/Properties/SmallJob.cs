using System.Collections.Immutable;
using System.Globalization;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Engine.Tests.Differential;
using ServiceRules.Rules.Model;

namespace ServiceRules.Engine.Tests.Properties;

/// <summary>
/// A job of one or two units with a short bench log in inches, made from a seed: mostly plausible, often near a limit,
/// sometimes out of order. Its timeline is left out, and the rules on it with it: they look at nothing else.
/// </summary>
internal sealed class SmallJob
{
    private static readonly RuleEngine Engine = new();

    private static readonly (ServiceRecord Record, AssessmentContext Context) Like = Shelf.Fixtures.First(
        one => one.Record.Id.Text == "F-height-check"
    );

    private static readonly string[] Feelers =
    [
        "0.0005 in",
        "0.0010 in",
        "0.0015 in",
        "0.0020 in",
        "0.0030 in",
    ];

    // Which rules apply is worked out anew for each mixture of task, kind and what was turned: a few mixtures suffice.
    private static readonly ServiceTask[] Tasks =
    [
        ServiceTask.FullService,
        ServiceTask.TouchUp,
        ServiceTask.HeightCheck,
        ServiceTask.DailyCheck,
    ];

    private readonly Random random;

    private SmallJob(int seed) => random = new(seed);

    /// <summary>Every shipped rule on units and sets, and those on gauges and on the sign-off.</summary>
    public static ImmutableArray<Rule> Rules { get; } =
    [
        .. Shelf.Rules.Where(rule =>
            rule.Scope is not (RuleScope.Job or RuleScope.Programme)
            || rule.Check
                is Check.Recency { Of: RecencyOf.Instruments }
                    or Check.RecordPart { Part: RequiredPart.SignOff }
        ),
    ];

    public static AssessmentContext Context => Like.Context;

    public static ServiceRecord Record(int seed)
    {
        var job = new SmallJob(seed);
        var units = Enumerable.Range(1, job.random.Next(1, 3)).Select(job.Unit).ToImmutableArray();
        // Units of one job are of one kind, as on a machine.
        return Like.Record with
        {
            Tasks = [job.Any(Tasks)],
            Timeline = [],
            Instruments = [Gauge(job), Feeler(job), Strip()],
            Units = [.. units.Select(unit => unit with { Sheet = units[0].Sheet })],
        };
    }

    public static Assessment Judged(ServiceRecord record, ImmutableArray<LimitSheet>? sheets = null) =>
        Engine.Assess(
            record,
            Context,
            new RuleBook([Jobs.Pack([.. Rules])], sheets ?? Shelf.Sheets),
            Jobs.Digests
        );

    private UnitWork Unit(int position)
    {
        int gap = random.Next(0, 6);
        List<BenchEntry> entries = [];
        for (int i = random.Next(3, 12); i > 0; i--)
        {
            entries.AddRange(Some(ref gap));
        }

        return new()
        {
            Id = new(string.Create(CultureInfo.InvariantCulture, $"U-{position}")),
            Position = position,
            Sheet = Any(Shelf.Sheets).Id.Text,
            Entries = [.. entries],
        };
    }

    private IEnumerable<BenchEntry> Some(ref int gap)
    {
        switch (random.Next(8))
        {
            case 0:
                return [Contact(gap)];
            case 1 or 2:
                var side = Side();
                int between = gap;
                return random.Next(2) == 0
                    ? [Feeler(side, Math.Max(0, between - 1), true), Feeler(side, between, false)]
                    : [Feeler(side, random.Next(Feelers.Length), random.Next(2) == 0)];
            case 3:
                int steps = random.Next(1, 3);
                bool opens = random.Next(2) == 0;
                gap = Math.Clamp(gap + (opens ? steps : -steps), 0, Feelers.Length - 1);
                return
                [
                    Turned(
                        AdjusterKind.Clearance,
                        Any(Enum.GetValues<Side>()),
                        opens ? AdjustDirection.Open : AdjustDirection.Close,
                        new AdjustmentAmount.Steps(steps)
                    ),
                ];
            case 4:
                return random.Next(2) == 0
                    ?
                    [
                        Turned(
                            AdjusterKind.Height,
                            Any(Enum.GetValues<Side>()),
                            AdjustDirection.Raise,
                            Far("0.004 in")
                        ),
                    ]
                    :
                    [
                        Turned(
                            AdjusterKind.HeightRange,
                            Domain.Records.Side.Both,
                            null,
                            new AdjustmentAmount.NotStated()
                        ),
                    ];
            case 5:
                return
                [
                    new Reading
                    {
                        Quantity = Any([MeasuredQuantity.BearingPlay, MeasuredQuantity.Guards]),
                        Observed = new Observation.Seen(Any(Enum.GetValues<Condition>())),
                    },
                ];
            case 6:
                return [Measured(MeasuredQuantity.FrontRoller, 0, 0.004m)];
            default:
                return
                [
                    Measured(MeasuredQuantity.HeightOfCut, 0.1496m, 0.006m, StationName.Left),
                    Measured(MeasuredQuantity.HeightOfCut, 0.1496m, 0.006m, StationName.Right),
                ];
        }
    }

    private Reading Contact(int gap) =>
        new()
        {
            Quantity = MeasuredQuantity.Clearance,
            Observed = new Observation.Contact(
                gap > 0 ? ContactState.None : Any(Enum.GetValues<ContactState>())
            ),
        };

    private Reading Feeler(StationName side, int which, bool passes) =>
        new()
        {
            Quantity = MeasuredQuantity.Clearance,
            Station = new Station.Named(side),
            Observed = new Observation.FeelerTest(
                [Print(Feelers[Math.Min(which, Feelers.Length - 1)])],
                passes
            ),
            Instrument = new("FG-01"),
        };

    private Reading Measured(MeasuredQuantity quantity, decimal about, decimal spread, StationName? at = null)
    {
        decimal figure = decimal.Round(about + (spread * (random.Next(-20, 21) / 20m)), 4);
        return new()
        {
            Quantity = quantity,
            Station = new Station.Named(at ?? Side()),
            Observed = new Observation.Measured(
                PrintedLength.Of(figure, LengthUnit.Inch).TryGet(out var print, out _)
                    ? print
                    : throw new FormatException()
            ),
            Instrument = random.Next(12) == 0 ? null : new Domain.Id<Instrument>("HG-01"),
        };
    }

    private static Adjustment Turned(
        AdjusterKind kind,
        Side side,
        AdjustDirection? direction,
        AdjustmentAmount amount
    ) =>
        new()
        {
            Adjuster = kind,
            Side = side,
            Direction = direction,
            Amount = amount,
        };

    private static Instrument Gauge(SmallJob job) =>
        new()
        {
            Id = new("HG-01"),
            Kind = InstrumentKind.HeightGauge,
            Resolution = Print(job.Any(["0.0005 in", "0.001 in", "0.01 in"])),
            Repeatability = Print("0.0002 in"),
            Calibration = new(new(2026, 1, 10), new(2027, 1, 10), Print("0.0004 in"), 2),
            ZeroCheck = job.random.Next(8) == 0 ? new(Print("0.02 in"), null) : null,
        };

    private static Instrument Feeler(SmallJob job) =>
        new()
        {
            Id = new("FG-01"),
            Kind = InstrumentKind.FeelerGauge,
            Tolerance = job.random.Next(8) == 0 ? null : Print("0.0001 in"),
            Inspection = new(new(2026, 3, 2), job.random.Next(12) == 0 ? Condition.Faulty : Condition.Sound),
        };

    private static Instrument Strip() => new() { Id = new("PS-01"), Kind = InstrumentKind.PaperStrip };

    private static AdjustmentAmount.Distance Far(string text) => new(Print(text));

    private StationName Side() => Any([StationName.Left, StationName.Right]);

    private T Any<T>(IReadOnlyList<T> among) => among[random.Next(among.Count)];

    public static PrintedLength Print(string text) =>
        PrintedLength.Parse(text).TryGet(out var length, out _) ? length : throw new FormatException(text);
}
