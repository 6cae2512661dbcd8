using System.Collections.Immutable;
using System.Globalization;
using FsCheck;
using FsCheck.Fluent;
using FsCheck.Xunit;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;
using static ServiceRules.Rules.Tests.Evaluation.Sample;
using Check = ServiceRules.Rules.Model.Check;

namespace ServiceRules.Rules.Tests.Evaluation;

/// <summary>
/// What a record says of a gauge held against the site's register, which has HG-01 with a step of 0.01 mm and U = 0.013 mm (k = 2)
/// for heights. The target is 4.00 mm with 0.10 mm either way.
/// </summary>
public sealed class GaugeRegisterTests
{
    private static readonly RegisteredInstrument Entry = new(
        new("HG-01"),
        InstrumentKind.HeightGauge,
        L("0.01 mm"),
        L("0.013 mm"),
        [MeasuredQuantity.HeightOfCut, MeasuredQuantity.GroomerHeight]
    );

    private static readonly Check Fit = new Check.Recency(RecencyOf.Instruments);

    private static readonly Check OnTarget = GaugeTests.OnTarget;

    private static readonly Instrument First = Instruments[0];

    private static JobFrame Frame(
        ImmutableArray<RegisteredInstrument>? register,
        Instrument[] gauges,
        params BenchEntry[] entries
    ) =>
        FrameBuilder.Build(
            Record(Unit(entries)) with
            {
                Instruments = [.. gauges],
            },
            Context with
            {
                Instruments = register,
            },
            Book()
        );

    private static CheckOutcome Job(JobFrame frame) => CheckEvaluation.Evaluate(RuleFor(Fit), frame, null);

    private static MeasuredValue At51(JobFrame frame) =>
        Assert.IsType<MeasuredValue>(Left(frame, MeasuredQuantity.HeightOfCut, 51).Knowledge);

    /// <summary>0.0065² + 0.01²/12 mm²: the register's U and step count where the record claims a hundredth of them.</summary>
    [Fact]
    public void Build_ARecordThatClaimsMoreThanTheRegister_IsWorthWhatTheRegisterSays()
    {
        var wishful = First with
        {
            Resolution = L("0.0001 mm"),
            Repeatability = null,
            Calibration = First.Calibration! with { ExpandedUncertainty = L("0.0001 mm") },
        };
        BenchEntry[] entries = [Height("left", "4.0900 mm"), Height("right", "4.0900 mm")];

        var alone = Frame(null, [wishful], entries);
        var held = Frame([Entry], [wishful], entries);

        Assert.Equal(Verdict.Met, Judge(OnTarget, alone).Verdict);
        var outcome = Judge(OnTarget, held);
        Assert.Equal((Verdict.Unproven, FindingReason.InsideGuard), (outcome.Verdict, outcome.Reason));
        Assert.InRange(At51(held).Expanded.Value.Millimetres, 0.0142244m, 0.0142250m);
        Assert.Contains(
            outcome.Notices,
            notice =>
                notice.Contains(
                    "gauge HG-01 states a resolution of 0.0001 mm, and the register has 0.01 mm: the coarser is taken for its step",
                    StringComparison.Ordinal
                )
        );
        Assert.Contains(
            "of gauge HG-01 the record has a step of 0.0001 mm, the register 0.01 mm; U = 0.0001 mm (k = 2) by its certificate, the register 0.013 mm (k = 2): the worse of each counts",
            Job(held).Notices
        );
    }

    /// <summary>A record that knows worse of its gauge than the register does is believed: 0.05 mm by its certificate.</summary>
    [Fact]
    public void Build_ARecordThatKnowsWorse_IsBelieved()
    {
        var worse = First with
        {
            Resolution = L("0.02 mm"),
            Calibration = First.Calibration! with { ExpandedUncertainty = L("0.05 mm") },
        };
        BenchEntry[] entries = [Height("left", "4.00 mm"), Height("right", "4.00 mm")];

        Assert.Equal(
            At51(Frame(null, [worse], entries)).Expanded.Value,
            At51(Frame([Entry], [worse], entries)).Expanded.Value
        );
    }

    /// <summary>Neither is believed alone: what the record calls it must read a height, and what the register calls it too.</summary>
    [Theory]
    [InlineData(InstrumentKind.Calliper, InstrumentKind.HeightGauge, Verdict.Met)]
    [InlineData(InstrumentKind.PaperStrip, InstrumentKind.HeightGauge, Verdict.Unproven)]
    [InlineData(InstrumentKind.HeightGauge, InstrumentKind.Micrometer, Verdict.Unproven)]
    public void Evaluate_AnotherKindThanTheRegisters_ProvesOnlyWhatBothRead(
        InstrumentKind recorded,
        InstrumentKind registered,
        Verdict verdict
    )
    {
        var frame = Frame(
            [Entry with { Kind = registered }],
            [First with { Kind = recorded }],
            Height("left", "4.00 mm"),
            Height("right", "4.00 mm")
        );

        var job = Job(frame);

        Assert.Equal(verdict, Judge(OnTarget, frame).Verdict);
        Assert.Equal(Verdict.Unproven, job.Verdict);
        Assert.StartsWith("The record calls gauge HG-01 a ", job.Statement, StringComparison.Ordinal);
        Assert.Contains(", the register a ", job.Statement, StringComparison.Ordinal);
    }

    [Fact]
    public void Evaluate_AGaugeThatIsRegisteredForSomethingElse_ProvesNothing()
    {
        var frame = Frame(
            [Entry with { Measures = [MeasuredQuantity.BedknifeLip, MeasuredQuantity.LandWidth] }],
            [First],
            Height("left", "4.00 mm"),
            Height("right", "4.00 mm")
        );

        var outcome = Judge(OnTarget, frame);

        Assert.Equal((Verdict.Unproven, FindingReason.GaugeCannotRead), (outcome.Verdict, outcome.Reason));
        Assert.Contains(
            outcome.Notices,
            notice =>
                notice.Contains(
                    "the register keeps gauge HG-01 for bedknife lip, land width, and not for height of cut",
                    StringComparison.Ordinal
                )
        );
    }

    /// <summary>Feelers and strips are inspected or replaced; a site need not have them in a register.</summary>
    [Theory]
    [InlineData(InstrumentKind.HeightGauge, true)]
    [InlineData(InstrumentKind.DialGauge, true)]
    [InlineData(InstrumentKind.FeelerGauge, false)]
    [InlineData(InstrumentKind.PaperStrip, false)]
    public void Evaluate_AGaugeThatTheRegisterDoesNotHave_IsTold(InstrumentKind kind, bool told)
    {
        var frame = Frame([], [First with { Id = new("HG-77"), Kind = kind }]);

        var outcome = Job(frame);

        Assert.Equal(Verdict.Met, outcome.Verdict);
        Assert.Equal(
            told,
            outcome.Notices.Contains(
                "the register of gauges does not have HG-77: what is known of it is the record's word alone"
            )
        );
    }

    [Fact]
    public void Evaluate_ASiteWithoutARegisterOfGauges_AsksForNone()
    {
        var outcome = Job(Frame(null, [First]));

        Assert.Equal(Verdict.Met, outcome.Verdict);
        Assert.DoesNotContain(
            outcome.Notices,
            notice => notice.Contains("register", StringComparison.Ordinal)
        );
    }

    /// <summary>The job is of 2026-04-13. Five years from the calibration is as long as any certificate is believed.</summary>
    [Theory]
    [InlineData("1990-01-01", "2099-12-31", Verdict.Unproven, "none is believed for longer than five years")]
    [InlineData("2021-04-12", "2026-04-30", Verdict.Unproven, "none is believed for longer than five years")]
    [InlineData("2021-04-13", "2026-04-30", Verdict.Met, null)]
    [InlineData("2026-01-10", "2099-12-31", Verdict.Met, null)]
    public void Evaluate_ACertificateForMuchTooLong_IsToldAndHoldsForFiveYears(
        string date,
        string due,
        Verdict verdict,
        string? told
    )
    {
        var gauge = First with
        {
            Calibration = First.Calibration! with
            {
                Date = DateOnly.Parse(date, CultureInfo.InvariantCulture),
                Due = DateOnly.Parse(due, CultureInfo.InvariantCulture),
            },
        };
        var frame = Frame(null, [gauge], Height("left", "4.00 mm"), Height("right", "4.00 mm"));

        var outcome = Job(frame);

        Assert.Equal((verdict, verdict), (outcome.Verdict, Judge(OnTarget, frame).Verdict));
        var words = told is null ? string.Join(' ', outcome.Notices) : outcome.Statement;
        Assert.Contains(told ?? $"claims to hold until {due}", words, StringComparison.Ordinal);
    }

    /// <summary>
    /// The limit is 4.10 mm. Two gauges that nobody knows read 4.00 where the registered one reads 4.20: it stays out. Where the
    /// registered one reads 4.00 and they 4.20, nothing is proven in.
    /// </summary>
    [Theory]
    [InlineData("4.20 mm", "4.00 mm", Verdict.NotMet)]
    [InlineData("4.00 mm", "4.20 mm", Verdict.Unproven)]
    [InlineData("4.00 mm", "4.00 mm", Verdict.Met)]
    public void Evaluate_UnregisteredGaugesAgainstARegisteredOne_OutvoteNothing(
        string registered,
        string invented,
        Verdict verdict
    )
    {
        BenchEntry[] entries =
        [
            .. new[] { "left", "right" }.SelectMany(side =>
                new BenchEntry[]
                {
                    Height(side, registered),
                    Height(side, invented, "HG-98"),
                    Height(side, invented, "HG-99"),
                }
            ),
        ];
        Instrument[] gauges = [First, First with { Id = new("HG-98") }, First with { Id = new("HG-99") }];

        var outcome = Judge(OnTarget, Frame([Entry], gauges, entries));

        Assert.Equal(verdict, outcome.Verdict);
        Assert.Equal(
            verdict is not Verdict.Met,
            outcome.Notices.Any(notice =>
                notice.Contains(
                    "HG-98 reads otherwise than HG-01 here, with nothing turned between, and is not in the register of gauges",
                    StringComparison.Ordinal
                )
            )
        );
    }

    /// <summary>Without a register the gauges with a certificate are the ones that count.</summary>
    [Fact]
    public void Evaluate_UncertifiedGaugesAgainstACertifiedOne_OutvoteNothing()
    {
        Instrument Uncertified(string id) => First with { Id = new(id), Calibration = null };
        BenchEntry[] entries =
        [
            .. new[] { "left", "right" }.SelectMany(side =>
                new BenchEntry[]
                {
                    Height(side, "4.20 mm"),
                    Height(side, "4.00 mm", "HG-98"),
                    Height(side, "4.00 mm", "HG-99"),
                }
            ),
        ];

        var outcome = Judge(
            OnTarget,
            Frame(null, [First, Uncertified("HG-98"), Uncertified("HG-99")], entries)
        );

        Assert.Equal(Verdict.NotMet, outcome.Verdict);
        Assert.Contains(
            outcome.Notices,
            notice => notice.Contains("and has no certificate", StringComparison.Ordinal)
        );
    }

    private static Gen<string?> Lengths(params string?[] texts) => Gen.Elements(texts);

    private static Arbitrary<Instrument> Words =>
        (
            from kind in Gen.Elements(Enum.GetValues<InstrumentKind>())
            from step in Lengths(null, "0.00001 mm", "0.001 mm", "0.01 mm", "0.1 mm", "0.0005 in")
            from certificate in Lengths(null, "0.00001 mm", "0.004 mm", "0.012 mm", "0.05 mm")
            from degrees in Gen.Elements<int?>(null, 1, 3, 20)
            from repeats in Lengths(null, "0 mm", "0.003 mm", "0.02 mm")
            from zero in Lengths(null, "0.00 mm", "0.01 mm", "0.05 mm")
            from after in Lengths(null, "0.00 mm", "-0.01 mm")
            from years in Gen.Elements(1, 4, 80)
            select new Instrument
            {
                Id = new("HG-01"),
                Kind = kind,
                Resolution = step is null ? null : L(step),
                Repeatability = repeats is null ? null : L(repeats),
                Calibration = certificate is null
                    ? null
                    : new(new(2026, 1, 10), new(2026 + years, 1, 10), L(certificate), 2m)
                    {
                        DegreesOfFreedom = degrees,
                    },
                ZeroCheck = zero is null ? null : new(L(zero), null),
                ZeroCheckAfter = zero is null || after is null ? null : new(L(after), null),
            }
        ).ToArbitrary();

    private static Arbitrary<(int Left, int Right)> Heights =>
        (
            from left in Gen.Choose(380, 420)
            from right in Gen.Choose(380, 420)
            select (left, right)
        ).ToArbitrary();

    /// <summary>
    /// Nothing that a record says of a registered gauge, true or invented, decides what the register's own word leaves open.
    /// </summary>
    [Property(MaxTest = 300)]
    public Property Evaluate_AnyWordOfARecordAboutARegisteredGauge_ProvesNoMoreThanTheRegister() =>
        Prop.ForAll(
            Words,
            Heights,
            (word, read) =>
            {
                var byRegister = new Instrument
                {
                    Id = Entry.Id,
                    Kind = Entry.Kind,
                    Resolution = Entry.Resolution,
                    // The register's word has zero and scatter in it, so that nothing is taken for want of them.
                    Repeatability = L("0.0001 mm"),
                    ZeroCheck = new(L("0.00 mm"), null),
                    Calibration = new(new(2026, 1, 10), new(2027, 1, 10), Entry.ExpandedUncertainty, 2m),
                };
                BenchEntry[] Entries(decimal less) =>
                    [
                        Height(
                            "left",
                            FormattableString.Invariant($"{(read.Left / 100m) - less:0.0000} mm"),
                            "HG-01"
                        ),
                        Height(
                            "right",
                            FormattableString.Invariant($"{(read.Right / 100m) - less:0.0000} mm"),
                            "HG-01"
                        ),
                    ];
                // What the record's zero check states is taken out; a gauge set to zero would have read that.
                var error = StatedZero.ErrorOf(word).Millimetres;
                return new[]
                {
                    OnTarget,
                    new Check.Spread(MeasuredQuantity.HeightOfCut, SpreadAcross.Sides),
                }.All(check =>
                {
                    var said = Judge(
                        check,
                        Frame(
                            [Entry],
                            [word],
                            [
                                Height(
                                    "left",
                                    FormattableString.Invariant($"{read.Left / 100m:0.00} mm"),
                                    "HG-01"
                                ),
                                Height(
                                    "right",
                                    FormattableString.Invariant($"{read.Right / 100m:0.00} mm"),
                                    "HG-01"
                                ),
                            ]
                        )
                    ).Verdict;
                    return said is Verdict.Unproven
                        || said == Judge(check, Frame(null, [byRegister], Entries(error))).Verdict;
                });
            }
        );
}
