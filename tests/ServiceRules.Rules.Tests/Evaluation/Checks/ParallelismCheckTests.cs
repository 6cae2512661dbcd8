using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;
using static ServiceRules.Rules.Tests.Evaluation.Sample;

namespace ServiceRules.Rules.Tests.Evaluation.Checks;

public class ParallelismCheckTests
{
    private static readonly Check Parallel = new Check.Parallelism(
        MeasuredQuantity.FrontRoller,
        DatumMethod.MinimumZone
    );

    private static Reading Roller(string station, string value) =>
        Measured(MeasuredQuantity.FrontRoller, station, value);

    // Limit 0.05 mm as printed in millimetres. A tilt counts in full and grows to the ends by 1.25; U = 0.0147 mm.
    [Theory]
    [InlineData("10.00 mm", "10.02 mm", Verdict.Met)]
    [InlineData("10.00 mm", "10.04 mm", Verdict.Unproven)]
    [InlineData("10.08 mm", "10.00 mm", Verdict.NotMet)]
    public void Evaluate_TiltOverTheWidth_CountsInFull(string left, string right, Verdict verdict)
    {
        Assert.Equal(verdict, Judge(Parallel, Roller("left", left), Roller("right", right)).Verdict);
    }

    [Fact]
    public void Evaluate_OutOfParallel_SquaresTheRightSide()
    {
        var outcome = Judge(Parallel, Roller("left", "10.08 mm"), Roller("right", "10.00 mm"));

        var move = Assert.IsType<Remedy.Move>(outcome.Remedy);
        Assert.Equal((Mm(0m), Mm(0.10m)), (move.Left, move.Right));
    }

    /// <summary>0.044 mm over 408 mm is 0.055 mm over the width: out, not proven, and squared as what is out. 0.036 is 0.045 mm.</summary>
    [Theory]
    [InlineData("10.044 mm", true)]
    [InlineData("10.036 mm", false)]
    public void Evaluate_NotProven_IsSquaredWhereLikelyOut(string left, bool moved)
    {
        var outcome = Judge(Parallel, Roller("left", left), Roller("right", "10.000 mm"));

        Assert.Equal((Verdict.Unproven, FindingReason.InsideGuard), (outcome.Verdict, outcome.Reason));
        Assert.Equal(moved ? Mm(0.055m) : null, (outcome.Remedy as Remedy.Move)?.Right);
    }

    /// <summary>A larger reading is further from the edge, either way round.</summary>
    [Theory]
    [InlineData("10.00 mm", "10.20 mm", "further from", -0.25)]
    [InlineData("10.20 mm", "10.00 mm", "nearer to", 0.25)]
    [InlineData("-0.20 mm", "0.00 mm", "further from", -0.25)]
    public void Evaluate_OutOfParallel_SaysWhichEndIsFurtherFromTheEdgeAndBringsItNearer(
        string left,
        string right,
        string where,
        double moves
    )
    {
        var outcome = Judge(Parallel, Roller("left", left), Roller("right", right));

        Assert.Contains(
            $"{where} the cutting edge at the right end than at the left",
            Assert.Single(outcome.Notices),
            StringComparison.Ordinal
        );
        Assert.Equal(Mm((decimal)moves), Assert.IsType<Remedy.Move>(outcome.Remedy).Right);
    }

    [Fact]
    public void Evaluate_OneStation_DrawsNoLine()
    {
        var outcome = Judge(Parallel, Roller("left", "10.00 mm"));

        Assert.Equal((Verdict.Unproven, FindingReason.TooFewStations), (outcome.Verdict, outcome.Reason));
    }

    /// <summary>
    /// A high middle: (0, 0.08, 0.02) less the line from 0 to 0.02 leaves (0, 0.07, 0). Of three readings at even
    /// distances both lines have that slope, and so the same width.
    /// </summary>
    [Theory]
    [InlineData(DatumMethod.MinimumZone, "the minimum zone")]
    [InlineData(DatumMethod.LeastSquares, "the least-squares line")]
    public void Evaluate_RollerBowedBeyondTheLimit_SquaringCannotHelp(DatumMethod datum, string laid)
    {
        var outcome = Judge(
            new Check.Parallelism(MeasuredQuantity.FrontRoller, datum),
            Roller("left", "10.00 mm"),
            Roller("middle", "10.08 mm"),
            Roller("right", "10.02 mm")
        );

        var act = Assert.IsType<Remedy.Act>(outcome.Remedy);
        Assert.Contains($"out of straight by 0.07 mm ({laid})", act.What, StringComparison.Ordinal);
        Assert.Contains(
            "squaring does not take a bow out",
            Assert.Single(outcome.Notices),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Evaluate_TiltedWithALittleBow_IsSquaredAndToldOfBoth()
    {
        var outcome = Judge(
            Parallel,
            Roller("left", "10.00 mm"),
            Roller("middle", "10.13 mm"),
            Roller("right", "10.20 mm")
        );

        Assert.IsType<Remedy.Move>(outcome.Remedy);
        var told = Assert.Single(outcome.Notices);
        Assert.Contains(
            "0.250 mm ± 0.015 mm further from the cutting edge at the right end than at the left",
            told,
            StringComparison.Ordinal
        );
        Assert.Contains(
            "further from the cutting edge in the middle than at the ends",
            told,
            StringComparison.Ordinal
        );
    }

    /// <summary>
    /// Limit 0.05 mm; stations 51, 255 and 459 of 510 mm. The largest difference read is in by itself, and its own bow goes on
    /// to more than the limit at the ends: (middle less sides) * (255 / 204)².
    /// </summary>
    [Theory]
    [InlineData("0.010 mm", "0.053 mm", "0.010 mm")] // bow 0.0672 mm
    [InlineData("0.010 mm", "0.050 mm", "0.017 mm")] // bow 0.0570 mm
    [InlineData("0.053 mm", "0.009 mm", "0.053 mm")] // bow -0.0688 mm
    public void Evaluate_BowedRollerThatIsInAtItsStations_IsNotPassed(
        string left,
        string middle,
        string right
    )
    {
        Reading Read(string station, string value) =>
            Measured(MeasuredQuantity.FrontRoller, station, value, "DG-01");

        var outcome = Judge(Parallel, Read("left", left), Read("middle", middle), Read("right", right));

        Assert.Equal((Verdict.Unproven, FindingReason.InsideGuard), (outcome.Verdict, outcome.Reason));
        Assert.Equal(
            "bowed, so that the ends cannot be told from these stations: read within 5 mm of the ends",
            Assert.IsType<Remedy.ReadAgain>(outcome.Remedy).Why
        );
    }

    // Flat within the gauge: every pair keeps the limit, and no bow shows.
    [Fact]
    public void Evaluate_RollerStraightWithinItsGauge_IsPassed() =>
        Assert.Equal(
            Verdict.Met,
            Judge(
                Parallel,
                Measured(MeasuredQuantity.FrontRoller, "left", "0.010 mm", "DG-01"),
                Measured(MeasuredQuantity.FrontRoller, "middle", "0.011 mm", "DG-01"),
                Measured(MeasuredQuantity.FrontRoller, "right", "0.010 mm", "DG-01")
            ).Verdict
        );

    /// <summary>
    /// 0.010, 0.026, 0.010 mm: bow 0.016·(255/204)² = 0.0250 mm. With s = 0.0064 mm a reading has u = 0.006407, U of the bow is
    /// 2·0.006407·√1.5·1.5625 = 0.0245, and it shows; with s = 0.0067 it is 0.0257, and it does not. By the line every pair keeps
    /// the limit: the scatter 0.016·√(2/3) = 0.01306, at most 0.016/3 ± 2·0.01306·√(23² + 8² + 31²)/24, 0.0482 mm (left end and
    /// right station). By the parabola the middle may lie 0.0250 ± 0.0270 and ± 0.0283 mm above an end: neither gauge lets that out.
    /// </summary>
    [Theory]
    [InlineData(
        "0.0064 mm",
        "bowed, so that the ends cannot be told from these stations: read within 5 mm of the ends"
    )]
    [InlineData(
        "0.0067 mm",
        "a bow that these readings leave possible would take the ends beyond the limit: read within 5 mm of the ends, or with a finer gauge"
    )]
    public void Evaluate_BowAtItsOwnUncertainty_IsLetOutByNeitherGauge(string repeats, string why)
    {
        Reading Read(string station, string value) =>
            Measured(MeasuredQuantity.FrontRoller, station, value, "DG-01");
        var gauge = Instruments.Single(each => each.Id == new Domain.Id<Instrument>("DG-01")) with
        {
            Repeatability = L(repeats),
        };
        var frame = FrameBuilder.Build(
            Record(Unit(Read("left", "0.010 mm"), Read("middle", "0.026 mm"), Read("right", "0.010 mm"))) with
            {
                Instruments = [gauge],
            },
            Context,
            Book()
        );

        var outcome = Judge(Parallel, frame);

        Assert.Equal((Verdict.Unproven, FindingReason.InsideGuard), (outcome.Verdict, outcome.Reason));
        Assert.Equal(why, Assert.IsType<Remedy.ReadAgain>(outcome.Remedy).Why);
    }

    /// <summary>
    /// Eleven readings on a bow: at the stations nothing departs by more than 0.02 mm, and by the parabola the middle lies beyond
    /// the limit above the ends.
    /// </summary>
    [Fact]
    public void Evaluate_BowBeyondTheLimit_IsNeverMet()
    {
        // 4·0.056·(1/4 - t²) at 105, 135, ... 405 mm of 510: from 0.037 to 0.056 mm, with the ends at nothing.
        var outcome = Judge(
            Parallel,
            [
                .. Enumerable
                    .Range(0, 11)
                    .Select(i => 105m + (i * 30m))
                    .Select(at =>
                        Measured(
                            MeasuredQuantity.FrontRoller,
                            FormattableString.Invariant($"{at} mm"),
                            FormattableString.Invariant(
                                $"{Math.Round(0.224m * (0.25m - (((at / 510m) - 0.5m) * ((at / 510m) - 0.5m))), 3)} mm"
                            ),
                            "DG-01"
                        )
                    ),
            ]
        );

        Assert.NotEqual(Verdict.Met, outcome.Verdict);
    }

    private static Reading[] Along(params (string Station, string Value)[] read) =>
        [.. read.Select(each => Measured(MeasuredQuantity.FrontRoller, each.Station, each.Value, "DG-01"))];

    /// <summary>
    /// A bow of 0.040 mm that was read from end to end keeps the limit of 0.05 mm as it is: U of two readings is 0.0009 mm. 6 mm
    /// inside the end a line would have to tell it, which a bow does not let it.
    /// </summary>
    [Theory]
    [InlineData("0 mm", "510 mm", Verdict.Met)]
    [InlineData("5 mm", "505 mm", Verdict.Met)]
    [InlineData("6 mm", "505 mm", Verdict.Unproven)]
    [InlineData("5 mm", "504 mm", Verdict.Unproven)]
    public void Evaluate_BowedRollerReadFromEndToEnd_IsToldByItsReadings(
        string left,
        string right,
        Verdict verdict
    )
    {
        var outcome = Judge(
            Parallel,
            Along(
                (left, "0.010 mm"),
                ("left", "0.024 mm"),
                ("middle", "0.050 mm"),
                ("right", "0.024 mm"),
                (right, "0.010 mm")
            )
        );

        Assert.Equal(verdict, outcome.Verdict);
        if (verdict is Verdict.Unproven)
        {
            Assert.Contains(
                "read within 5 mm of the ends",
                Assert.IsType<Remedy.ReadAgain>(outcome.Remedy).Why,
                StringComparison.Ordinal
            );
        }
    }

    /// <summary>
    /// Ends read, middle not: by the parabola it lies 0.25·0.021/0.09 = 0.0583 mm above them. Nothing is left to read nearer the
    /// ends.
    /// </summary>
    [Fact]
    public void Evaluate_BowOfWhichTheMiddleWasNotRead_AsksForTheMiddle()
    {
        var outcome = Judge(
            Parallel,
            Along(("0 mm", "0.010 mm"), ("left", "0.031 mm"), ("right", "0.031 mm"), ("510 mm", "0.010 mm"))
        );

        Assert.Equal((Verdict.Unproven, FindingReason.InsideGuard), (outcome.Verdict, outcome.Reason));
        Assert.Contains(
            "these readings do not tell whether it is bowed, nor how far a bow reaches in the middle",
            outcome.Statement,
            StringComparison.Ordinal
        );
        Assert.Equal(
            "a bow that these readings leave possible would take the middle beyond the limit: read in the middle too, or with a finer gauge",
            Assert.IsType<Remedy.ReadAgain>(outcome.Remedy).Why
        );
    }

    /// <summary>
    /// All alike, s = 0.010 mm: two readings differ by ± 0.0283 mm, which is in, and the middle by the parabola, 25/18 of both inner
    /// ones less 8/9 of both outer ones, from an end by ± 2·0.010·√8.216 = 0.0573 mm.
    /// </summary>
    [Fact]
    public void Evaluate_BowThatMayBeInTheMiddle_AsksForTheMiddle()
    {
        CheckOutcome Of(params (string Station, string Value)[] read) =>
            Judge(
                Parallel,
                FrameBuilder.Build(
                    Record(Unit(Along(read))) with
                    {
                        Instruments =
                        [
                            Instruments.Single(each => each.Id == new Domain.Id<Instrument>("DG-01")) with
                            {
                                Repeatability = L("0.010 mm"),
                            },
                        ],
                    },
                    Context,
                    Book()
                )
            );

        var outcome = Of(
            ("0 mm", "0.010 mm"),
            ("left", "0.010 mm"),
            ("right", "0.010 mm"),
            ("510 mm", "0.010 mm")
        );

        Assert.Equal(Verdict.Unproven, outcome.Verdict);
        Assert.Equal(
            "a bow that these readings leave possible would take the middle beyond the limit: read in the middle too, or with a finer gauge",
            Assert.IsType<Remedy.ReadAgain>(outcome.Remedy).Why
        );
        Assert.Equal(
            Verdict.Met,
            Of(
                ("0 mm", "0.010 mm"),
                ("left", "0.010 mm"),
                ("middle", "0.010 mm"),
                ("right", "0.010 mm"),
                ("510 mm", "0.010 mm")
            ).Verdict
        );
    }

    // A bow that keeps the limit is told, and that it holds nothing; the mean is the parabola's, a + c/12.
    [Fact]
    public void Evaluate_BowWithinTheLimit_IsSaidToHoldNothing()
    {
        var sheet = Sheet with
        {
            Quantities =
            [
                .. Sheet.Quantities.Select(limit =>
                    limit.Quantity is MeasuredQuantity.FrontRoller
                        ? limit with
                        {
                            Parallelism = D("0.5 mm"),
                        }
                        : limit
                ),
            ],
        };
        var frame = FrameBuilder.Build(
            Record(
                Unit(
                    Measured(MeasuredQuantity.FrontRoller, "left", "0.030 mm", "DG-01"),
                    Measured(MeasuredQuantity.FrontRoller, "middle", "0.090 mm", "DG-01"),
                    Measured(MeasuredQuantity.FrontRoller, "right", "0.030 mm", "DG-01")
                )
            ),
            Context,
            Book(sheet)
        );

        var outcome = Judge(Parallel, frame);

        // 0.090 - 0.06 * (255 / 204)² / 3 = 0.05875 mm.
        Assert.Equal(Verdict.Met, outcome.Verdict);
        var told = Assert.Single(outcome.Notices);
        Assert.StartsWith("over the width: mean 0.0588 mm", told, StringComparison.Ordinal);
        Assert.EndsWith("this holds nothing: with the bow it is in", told, StringComparison.Ordinal);
    }
}
