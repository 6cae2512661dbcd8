using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;
using static ServiceRules.Rules.Tests.Evaluation.Sample;

namespace ServiceRules.Rules.Tests.Evaluation.Checks;

/// <summary>
/// What rests on readings in millimetres and in inches keeps both prints of a limit, in whatever order and from whichever side
/// it was read. The gauge may be off by U = 2 sqrt(0.001² + 0.001²/12 + 0.001²) = 0.0029 mm.
/// </summary>
public sealed class ReadInBothUnitsTests
{
    private static readonly Check AtStations = new Check.LimitOnQuantity(
        MeasuredQuantity.HeightOfCut,
        LimitSource.SettingOrder,
        CheckedPlaces.Stations
    );

    private static readonly Check AtEnds = new Check.LimitOnQuantity(
        MeasuredQuantity.HeightOfCut,
        LimitSource.SettingOrder,
        CheckedPlaces.StationsAndEnds
    );

    private static readonly Check Sides = new Check.Spread(MeasuredQuantity.HeightOfCut, SpreadAcross.Sides);

    private static readonly Check Gap = new Check.LimitOnQuantity(
        MeasuredQuantity.Clearance,
        LimitSource.Sheet,
        CheckedPlaces.Stations
    );

    private static readonly Instrument Fine = new()
    {
        Id = new("HG-02"),
        Kind = InstrumentKind.HeightGauge,
        Resolution = L("0.001 mm"),
        Repeatability = L("0.001 mm"),
        ZeroCheck = new(L("0.000 mm"), null),
        Calibration = new(new(2026, 1, 10), new(2027, 1, 10), L("0.002 mm"), 2m),
    };

    private static readonly Instrument Exact = Instruments[1] with
    {
        Id = new("FG-03"),
        Tolerance = L("0.002 mm"),
    };

    // Target 4.00 mm; 0.005 in = 0.127 mm: 4.127 mm by the one print, 4.140 mm by the other. Both readings are the same length.
    [Theory]
    [InlineData("4.0000 mm", "0.15748 in", Verdict.Met)]
    [InlineData("4.1250 mm", "0.16240 in", Verdict.Unproven)]
    [InlineData("4.1330 mm", "0.16272 in", Verdict.Unproven)]
    [InlineData("4.1500 mm", "0.16339 in", Verdict.NotMet)]
    public void Evaluate_TwoReadingsOfAPlaceSwapped_TellsTheSame(string metric, string inch, Verdict verdict)
    {
        var (one, other) = (Read("left", metric), Read("left", inch));
        var right = Read("right", "4.0000 mm");

        var outcome = Heights(AtStations, "0.14 mm", one, other, right);
        var swapped = Heights(AtStations, "0.14 mm", other, one, right);

        Assert.Equal(verdict, outcome.Verdict);
        Assert.Equal(
            (outcome.Verdict, outcome.Reason, outcome.Statement),
            (swapped.Verdict, swapped.Reason, swapped.Statement)
        );
        Assert.Equal(string.Join('\n', outcome.Notices), string.Join('\n', swapped.Notices));
    }

    [Fact]
    public void Evaluate_OutByOnePrintOnly_SaysSo()
    {
        var outcome = Heights(
            AtStations,
            "0.14 mm",
            Read("left", "4.1330 mm"),
            Read("left", "0.16272 in"),
            Read("right", "4.0000 mm")
        );

        Assert.EndsWith(
            "out by one of the two printed limits only, and read in both units",
            outcome.Statement,
            StringComparison.Ordinal
        );
        Assert.Contains(
            "read in both units: held to both printed limits, limits 3.86 mm to 4.14 mm and limits 0.15248 in to 0.16248 in",
            Assert.Single(outcome.Notices),
            StringComparison.Ordinal
        );
    }

    // Limit 4.130 mm or 4.127 mm. The end 51 mm beyond 4.1245 mm, 4.1116 mm at 408 mm from it: 4.1245 + 0.0129/8 = 4.1261 mm.
    [Fact]
    public void Evaluate_EndOfALineMirrored_TellsTheSame()
    {
        var outcome = Heights(AtEnds, "0.13 mm", Read("left", "4.1245 mm"), Read("right", "0.16187 in"));
        var mirrored = Heights(AtEnds, "0.13 mm", Read("left", "0.16187 in"), Read("right", "4.1245 mm"));

        Assert.Equal((Verdict.Unproven, FindingReason.InsideGuard), (outcome.Verdict, outcome.Reason));
        Assert.Equal((Verdict.Unproven, FindingReason.InsideGuard), (mirrored.Verdict, mirrored.Reason));
        Assert.Equal(
            outcome.Statement.Replace("left end", "right end", StringComparison.Ordinal),
            mirrored.Statement
        );
    }

    [Fact]
    public void Evaluate_LineAllInOneSystem_IsHeldToItsOwnPrint()
    {
        var outcome = Heights(AtEnds, "0.13 mm", Read("left", "4.1245 mm"), Read("right", "4.1116 mm"));

        Assert.Equal(Verdict.Met, outcome.Verdict);
    }

    // Limit 0.048 mm or 0.002 in = 0.0508 mm. 0.0364 mm over 408 mm is 0.0455 mm over 510 mm, known to 0.0037 mm.
    [Theory]
    [InlineData("4.0000 mm", "0.15891 in")]
    [InlineData("0.15891 in", "4.0000 mm")]
    public void Evaluate_SideToSideMirrored_IsHeldToBothPrints(string left, string right)
    {
        var outcome = Heights(Sides, "0.13 mm", Read("left", left), Read("right", right));

        Assert.Equal((Verdict.Unproven, FindingReason.InsideGuard), (outcome.Verdict, outcome.Reason));
        Assert.Contains(
            "read in both units: held to both printed limits",
            outcome.Notices[0],
            StringComparison.Ordinal
        );
    }

    // Upper limit 0.0025 in = 0.0635 mm, printed 0.064 mm; the gap lies from 0.0630 or 0.0636 to 0.06375 mm.
    [Theory]
    [InlineData("0.0650 mm", true)]
    [InlineData("0.0650 mm", false)]
    [InlineData("0.0656 mm", true)]
    [InlineData("0.0656 mm", false)]
    public void Evaluate_FeelersOfBothSystems_AreHeldToBothPrints(string passing, bool inchLast)
    {
        BenchEntry[] At(string station)
        {
            var (passes, stops) = (
                Feeler(station, passing, true, "FG-03"),
                Feeler(station, "0.002431 in", false, "FG-03")
            );
            return inchLast ? [passes, stops] : [stops, passes];
        }

        var record = Record(Unit([.. At("left"), .. At("right")])) with { Instruments = [Exact] };

        var outcome = Judge(Gap, FrameBuilder.Build(record, Context, Book()));

        Assert.Equal(
            (Verdict.Unproven, FindingReason.IntervalCrossesLimit),
            (outcome.Verdict, outcome.Reason)
        );
    }

    private static Reading Read(string station, string value) => Height(station, value, "HG-02");

    private static CheckOutcome Heights(Check check, string metricTolerance, params BenchEntry[] entries)
    {
        var sheet = Sheet with
        {
            Quantities =
            [
                .. Sheet.Quantities.Select(limit =>
                    limit.Quantity is MeasuredQuantity.HeightOfCut
                        ? limit with
                        {
                            ToleranceAboutTarget = D("0.005 in", metricTolerance),
                            SideToSide = D("0.002 in", "0.048 mm"),
                        }
                        : limit
                ),
            ],
        };
        var record = Record(Unit(entries)) with { Instruments = [Fine] };
        return Judge(check, FrameBuilder.Build(record, Context, Book(sheet)));
    }

    /// <summary>Each comparison says in which units the statement tells it: those of its own readings.</summary>
    [Fact]
    public void Evaluate_OneSideInInchesOneInMillimetres_EachIsToldInItsOwn()
    {
        var outcome = Judge(AtStations, Height("left", "0.15748 in"), Height("right", "4.09 mm"));

        Assert.Equal(
            [("459 mm", UnitSystem.Metric), ("51 mm", UnitSystem.Inch)],
            outcome.Comparisons.Select(each => (each.Place, each.ToldIn!.Value))
        );
        Assert.Contains("right (459 mm) 4.090 mm", outcome.Statement, StringComparison.Ordinal);
    }
}
