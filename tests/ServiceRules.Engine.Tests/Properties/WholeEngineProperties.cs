using System.Collections.Immutable;
using FsCheck.Xunit;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Engine.Tests.Differential;
using ServiceRules.Rules.Model;
using AnySeed = FsCheck.DoNotSize<int>;

namespace ServiceRules.Engine.Tests.Properties;

/// <summary>What holds of every answer of the engine as a whole, whatever the job. Each on a thousand jobs.</summary>
[Properties(MaxTest = 1000)]
public class WholeEngineProperties
{
    private static readonly ImmutableArray<LimitSheet> Mirrored = [.. Shelf.Sheets.Select(Mirror.Of)];

    private static readonly ImmutableArray<LimitSheet> OneFigure =
    [
        .. Shelf.Sheets.Select(ExactMillimetres.OneFigure),
    ];

    // A plan is compiled for each order of the rules, so there are a few orders and many jobs.
    private static readonly ImmutableArray<(RuleBook Book, string Digest)> Shuffled =
    [
        .. Enumerable
            .Range(1, 3)
            .Select(seed =>
                (new RuleBook([Jobs.Pack(Shuffle(SmallJob.Rules, seed))], Shelf.Sheets), $"sha256:{seed}")
            ),
    ];

    private static readonly RuleEngine OfShuffled = new();

    private static readonly RuleEngine OfAll = new();

    [Property]
    public void Assess_OrderOfInstrumentsAndPeople_NeverMatters(AnySeed any)
    {
        int seed = any.Item;
        var record = SmallJob.Record(seed) with
        {
            People = [new(new("tech-02"), JobRole.Performs), new(new("tech-04"), JobRole.Assists)],
        };

        var other = record with
        {
            Instruments = [.. Shuffle(record.Instruments, seed)],
            People = [.. record.People.Reverse()],
        };

        Assert.Equal(Plainly(SmallJob.Judged(record)), Plainly(SmallJob.Judged(other)));
    }

    [Property]
    public void Assess_OrderOfRules_NeverMatters(AnySeed any)
    {
        int seed = any.Item;
        var record = SmallJob.Record(seed);
        var (book, digest) = Shuffled[Math.Abs(seed % Shuffled.Length)];

        var other = OfShuffled.Assess(record, SmallJob.Context, book, Jobs.Digests with { Packs = digest });

        Assert.Equal(Whole(SmallJob.Judged(record)), Whole(other));
    }

    /// <summary>Readings of different places or quantities, and turns of the two sides of one adjuster, commute.</summary>
    [Property]
    public void Assess_OrderOfWhatCommutes_NeverMatters(AnySeed any)
    {
        int seed = any.Item;
        var record = SmallJob.Record(seed);
        var other = record with
        {
            Units =
            [
                .. record.Units.Select(unit => unit with { Entries = Commuted(unit.Entries, new(seed)) }),
            ],
        };

        Assert.Equal(Whole(SmallJob.Judged(record)), Whole(SmallJob.Judged(other)));
    }

    /// <summary>Both sides at once is the left and then the right.</summary>
    [Property]
    public void Assess_BothSidesOrOneAfterTheOther_IsTheSame(AnySeed any)
    {
        int seed = any.Item;
        var record = SmallJob.Record(seed);
        var other = record with
        {
            Units =
            [
                .. record.Units.Select(unit => unit with { Entries = [.. unit.Entries.SelectMany(Apart)] }),
            ],
        };

        Assert.Equal(Whole(SmallJob.Judged(record)), Whole(SmallJob.Judged(other)));
    }

    [Property]
    public void Assess_InTheMirror_MirrorsFindingsAndRemedies(AnySeed any)
    {
        int seed = any.Item;
        var record = SmallJob.Record(seed);

        var straight = SmallJob.Judged(record);
        var mirrored = SmallJob.Judged(Mirror.Of(record), Mirrored);

        Assert.Equal(Plainly(straight), Plainly(mirrored));
        Assert.Equal(
            straight.Findings.Select(finding => Turned(finding.Remedy, inMirror: false)),
            mirrored.Findings.Select(finding => Turned(finding.Remedy, inMirror: true))
        );
    }

    [Property]
    public void Assess_ExactMillimetresUnderLimitsOfOneFigure_ChangeNothing(AnySeed any)
    {
        int seed = any.Item;
        var record = SmallJob.Record(seed);
        // Where nobody noted the gauge, the digits that were written are all there is of doubt: they are left out here.
        record = record with
        {
            Units =
            [
                .. record.Units.Select(unit =>
                    unit with
                    {
                        Entries = [.. unit.Entries.Where(IsWithItsGauge)],
                    }
                ),
            ],
        };

        var inches = SmallJob.Judged(record, OneFigure);
        var metric = SmallJob.Judged(ExactMillimetres.Of(record), OneFigure);

        Assert.Equal(Verdicts(inches), Verdicts(metric));
        Assert.Equal(
            inches.Findings.Select(finding => Turned(finding.Remedy, inMirror: false)),
            metric.Findings.Select(finding => Turned(finding.Remedy, inMirror: false))
        );
    }

    /// <summary>
    /// More doubt about a gauge takes proof away and gives none, either way. (Two readings of one place that contradict
    /// one another are another matter: a coarser gauge may have shown both.)
    /// </summary>
    [Property]
    public void Assess_MoreUncertainty_OnlyEverTurnsIntoUnproven(AnySeed any)
    {
        int seed = any.Item;
        var record = SmallJob.Record(seed);
        record = record with
        {
            Units = [.. record.Units.Select(unit => unit with { Entries = [.. OncePerPlace(unit.Entries)] })],
        };
        var doubtful = record with { Instruments = [.. record.Instruments.Select(MoreDoubtful)] };

        OnlyEverUnproven(SmallJob.Judged(record), SmallJob.Judged(doubtful));
    }

    /// <summary>
    /// A coarser gauge proves nothing that a finer one leaves open, also where its zero was off or moved. (Two readings of one
    /// place that contradict one another are left out, as above.)
    /// </summary>
    [Property]
    public void Assess_CoarserResolution_OnlyEverTurnsIntoUnproven(AnySeed any)
    {
        int seed = any.Item;
        var random = new Random(seed);
        var like = SmallJob.Record(seed);
        string[] zeros = ["0.0000 in", "0.0003 in", "0.0005 in", "0.0008 in", "0.002 in", "0.006 in"];
        string[] steps = ["0.0001 in", "0.0005 in", "0.001 in", "0.005 in", "0.01 in"];
        var zero = new ZeroCheck(SmallJob.Print(Any(zeros, random)), null);
        var after = random.Next(2) == 0 ? null : new ZeroCheck(SmallJob.Print(Any(zeros, random)), null);
        int fine = random.Next(steps.Length - 1);
        int coarse = random.Next(fine + 1, steps.Length);

        ServiceRecord Showing(string step) =>
            like with
            {
                Units =
                [
                    .. like.Units.Select(unit => unit with { Entries = [.. OncePerPlace(unit.Entries)] }),
                ],
                Instruments =
                [
                    .. like.Instruments.Select(gauge =>
                        gauge.Resolution is null
                            ? gauge
                            : gauge with
                            {
                                Resolution = SmallJob.Print(step),
                                ZeroCheck = zero,
                                ZeroCheckAfter = after,
                            }
                    ),
                ],
            };

        OnlyEverUnproven(SmallJob.Judged(Showing(steps[fine])), SmallJob.Judged(Showing(steps[coarse])));
    }

    private static void OnlyEverUnproven(Assessment before, Assessment after)
    {
        Assert.All(
            before.Findings.Zip(after.Findings),
            pair =>
                Assert.True(
                    pair.Second.Verdict == pair.First.Verdict || pair.Second.Verdict == Verdict.Unproven,
                    $"{pair.First.Rule} on {pair.First.Subject.Key} was {pair.First.Verdict} ({pair.First.Statement}), and with more doubt is {pair.Second.Verdict} ({pair.Second.Statement})"
                )
        );
        // What was read at a task that does not ask for it holds while it is proven out, and is told once it no longer is.
        Assert.False(
            before.Job.Disposition != Disposition.Release
                && after.Job.Disposition == Disposition.Release
                && !before
                    .Findings.Where(finding => finding.Effect is Effect.Hold or Effect.Stop)
                    .All(finding => IsReachedByReading(finding.Rule)),
            $"held before: {string.Join("; ", before.Findings.Where(finding => finding.Effect is Effect.Hold or Effect.Stop).Select(finding => finding.Rule))}"
        );
    }

    private static bool IsReachedByReading(string rule) =>
        SmallJob.Rules.Any(one => one.Id.Text == rule && !one.When.OrRead.IsEmpty);

    /// <summary>By the shipped rules a unit with an empty log goes out on no task, however the rest of the job looks.</summary>
    [Property]
    public void Assess_NothingRead_ReleasesNoUnit(AnySeed any)
    {
        int seed = any.Item;
        var random = new Random(seed);
        var (like, _) = Shelf.Fixtures[random.Next(Shelf.Fixtures.Length)];
        var record = like with
        {
            Tasks = [Any(Enum.GetValues<ServiceTask>(), random)],
            Units =
            [
                .. like.Units.Select(unit =>
                    unit with
                    {
                        Entries = [],
                        Tasks = [],
                        Sheet = Any(Shelf.Sheets, random).Id.Text,
                    }
                ),
            ],
        };

        var assessment = SmallJob.Judged(record);

        Assert.All(assessment.Units, unit => Assert.NotEqual(Disposition.Release, unit.Outcome.Disposition));
        Assert.NotEqual(Disposition.Release, assessment.Job.Disposition);
    }

    /// <summary>The same, without a timeline, by all rules: nothing shown, nothing released, whoever signed.</summary>
    [Property]
    public void Assess_NothingShownAtAll_NeverReleases(AnySeed any)
    {
        int seed = any.Item;
        var record = SmallJob.Record(seed);
        record = record with
        {
            Units = [.. record.Units.Select(unit => unit with { Entries = [] })],
            Place = seed % 2 == 0 ? WorkPlace.OnMachine : WorkPlace.OnBench,
        };

        var assessment = OfAll.Assess(record, SmallJob.Context, Shelf.Book(Shelf.Rules), Jobs.Digests);

        Assert.NotEqual(Disposition.Release, assessment.Job.Disposition);
        Assert.NotEqual(Disposition.Release, assessment.Set.Disposition);
    }

    private static ImmutableArray<BenchEntry> Commuted(ImmutableArray<BenchEntry> entries, Random random)
    {
        var list = entries.ToList();
        for (int i = 0; i + 1 < list.Count; i++)
        {
            if (random.Next(2) == 0 && Commute(list[i], list[i + 1]))
            {
                (list[i], list[i + 1]) = (list[i + 1], list[i]);
            }
        }

        return [.. list];
    }

    private static bool Commute(BenchEntry one, BenchEntry other) =>
        (one, other) switch
        {
            (Reading a, Reading b) => a.Quantity != b.Quantity
                || (a.Station is not null && b.Station is not null && a.Station != b.Station),
            (Adjustment a, Adjustment b) => a.Adjuster == b.Adjuster
                && (a.Side, b.Side) is (Side.Left, Side.Right) or (Side.Right, Side.Left),
            _ => false,
        };

    private static IEnumerable<BenchEntry> Apart(BenchEntry entry) =>
        entry is Adjustment { Side: Side.Both } both
            ? [both with { Side = Side.Left }, both with { Side = Side.Right }]
            : [entry];

    private static IEnumerable<BenchEntry> OncePerPlace(IEnumerable<BenchEntry> entries)
    {
        HashSet<(MeasuredQuantity, Station?)> seen = [];
        return entries.Where(entry =>
            entry is not Reading { Observed: Observation.Measured } reading
            || seen.Add((reading.Quantity, reading.Station))
        );
    }

    private static bool IsWithItsGauge(BenchEntry entry) =>
        entry is not Reading { Observed: Observation.Measured, Instrument: null };

    private static Instrument MoreDoubtful(Instrument gauge) =>
        gauge with
        {
            Repeatability = gauge.Repeatability is null ? null : SmallJob.Print("0.0015 in"),
            Calibration = gauge.Calibration is { } calibration
                ? calibration with
                {
                    ExpandedUncertainty = SmallJob.Print("0.0025 in"),
                }
                : null,
        };

    /// <summary>Of two faults alike the first is told as the reason: the left one, or that of the gauge listed first.</summary>
    private static IEnumerable<string> Plainly(Assessment assessment) =>
        [
            .. assessment.Findings.Select(f => $"{f.Rule} {f.Subject.Key} {f.Verdict} {f.Effect}"),
            .. Dispositions(assessment),
        ];

    private static IEnumerable<string> Verdicts(Assessment assessment) =>
        [
            .. assessment.Findings.Select(f => $"{f.Rule} {f.Subject.Key} {f.Verdict} {f.Reason} {f.Effect}"),
            .. Dispositions(assessment),
        ];

    /// <summary>All but where in the record the evidence stands.</summary>
    private static IEnumerable<string> Whole(Assessment assessment) =>
        [
            .. assessment.Findings.Select(f =>
                $"{f.Rule} {f.Subject.Key} {f.Verdict} {f.Reason} {f.Effect} {f.Statement} {Turned(f.Remedy, false)} {string.Join(" | ", f.Comparisons)}"
            ),
            .. Dispositions(assessment),
        ];

    private static IEnumerable<string> Dispositions(Assessment assessment) =>
        [
            $"job {assessment.Job.Disposition}",
            $"set {assessment.Set.Disposition}",
            .. assessment.Units.Select(unit => $"{unit.Unit} {unit.Outcome.Disposition}"),
        ];

    private static string Turned(Remedy? remedy, bool inMirror) =>
        remedy switch
        {
            Remedy.Turn turn => inMirror
                ? $"turn {turn.RightSteps} {turn.LeftSteps}"
                : $"turn {turn.LeftSteps} {turn.RightSteps}",
            // Where only the level is asked, which end is moved is a choice: by how much one against the other is not.
            Remedy.Move move when move.Left == Length.Zero || move.Right == Length.Zero => inMirror
                ? $"level {move.Left - move.Right}"
                : $"level {move.Right - move.Left}",
            Remedy.Move move => inMirror
                ? $"move {move.Right} {move.Left}"
                : $"move {move.Left} {move.Right}",
            Remedy.OpenUntilFree free => $"open until free, then {free.ThenOpen}",
            null => "none",
            _ => remedy.GetType().Name,
        };

    private static T[] Shuffle<T>(IEnumerable<T> items, int seed)
    {
        T[] all = [.. items];
        new Random(seed).Shuffle(all);
        return all;
    }

    private static T Any<T>(IReadOnlyList<T> among, Random random) => among[random.Next(among.Count)];
}
