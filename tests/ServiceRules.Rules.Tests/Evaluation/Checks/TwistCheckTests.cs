using System.Text.Json;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;
using ServiceRules.TestKit;
using static ServiceRules.Rules.Tests.Evaluation.Sample;

namespace ServiceRules.Rules.Tests.Evaluation.Checks;

/// <summary>Limit 0.003 in; feelers true to 0.0001 in. Without gauging stations left and right are the ends themselves.</summary>
public class TwistCheckTests
{
    private static readonly Check Twist = new Check.Twist();

    private static readonly LimitSheet Plated = Sheet with
    {
        Quantities =
        [
            .. Sheet.Quantities,
            new()
            {
                Quantity = MeasuredQuantity.FrontRollerOnPlate,
                Twist = D("0.003 in", "0.076 mm"),
                Basis = Sheet.Basis,
            },
        ],
    };

    private static CheckOutcome On(params BenchEntry[] entries) =>
        Judge(Twist, FrameBuilder.Build(Record(Unit(entries)), Context, Book(Plated)));

    private static Reading Corner(MeasuredQuantity roller, string station, string feeler, bool passes) =>
        Feeler(station, feeler, passes) with
        {
            Quantity = roller,
        };

    private static Reading Front(string station, string feeler, bool passes) =>
        Corner(MeasuredQuantity.FrontRollerOnPlate, station, feeler, passes);

    private static Reading Rear(string station, string feeler, bool passes) =>
        Corner(MeasuredQuantity.RearRollerOnPlate, station, feeler, passes);

    private static BenchEntry[] Others =>
        [
            Front("right", "0.001 in", false),
            Rear("left", "0.001 in", false),
            Rear("right", "0.001 in", false),
        ];

    /// <summary>Each corner from nothing to less than 0.0011 in: no more than 0.0022 in of twist either way.</summary>
    [Fact]
    public void Evaluate_NoCornerLetsTheFeelerPass_IsMet()
    {
        var outcome = On([Front("left", "0.001 in", false), .. Others]);

        Assert.Equal(Verdict.Met, outcome.Verdict);
        Assert.Equal(Length.FromInches(-0.0022m), outcome.Comparisons[0].KnownLower);
        Assert.Equal(Length.FromInches(0.0022m), outcome.Comparisons[0].KnownUpper);
    }

    /// <summary>
    /// Front left at least 0.0059 in, front right and rear left less than 0.0011 in: at least 0.0059 - 0.0022 = 0.0037 in.
    /// </summary>
    [Fact]
    public void Evaluate_AFeelerPassesUnderOneCorner_IsNotMetByWhatIsCertain()
    {
        var outcome = On([Front("left", "0.006 in", true), .. Others]);

        Assert.Equal((Verdict.NotMet, FindingReason.OutOfLimit), (outcome.Verdict, outcome.Reason));
        Assert.Equal(Length.FromInches(0.0037m), outcome.Comparisons[0].KnownLower);
        Assert.Equal(
            "Roller twist: front left and rear right stand high by at least 0.0037 in, limit 0.003 in: out by at least 0.0007 in",
            outcome.Statement
        );
    }

    [Fact]
    public void Evaluate_TheOtherDiagonalHigh_SaysSo()
    {
        var outcome = On(
            Front("right", "0.006 in", true),
            Front("right", "0.007 in", false),
            Front("left", "0.001 in", false),
            Rear("left", "0.001 in", false),
            Rear("right", "0.001 in", false)
        );

        Assert.Equal(Verdict.NotMet, outcome.Verdict);
        Assert.Contains("front right and rear left stand high", outcome.Statement, StringComparison.Ordinal);
    }

    /// <summary>What stands on a plate touches it somewhere: four corners that let a feeler pass are of no standing unit.</summary>
    [Fact]
    public void Evaluate_AFeelerPassesUnderAllFourCorners_IsAContradictionAndNoTwist()
    {
        var outcome = On(
            Front("left", "0.010 in", true),
            Front("right", "0.002 in", true),
            Front("right", "0.0025 in", false),
            Rear("left", "0.002 in", true),
            Rear("left", "0.0025 in", false),
            Rear("right", "0.002 in", true)
        );

        Assert.Equal((Verdict.Unproven, FindingReason.Conflicting), (outcome.Verdict, outcome.Reason));
        Assert.StartsWith(
            "Roller twist: a feeler passes under all four corners, and what stands on a plate touches it: front ",
            outcome.Statement,
            StringComparison.Ordinal
        );
        Assert.Contains(
            "no tries of one standing unit",
            Assert.IsType<Remedy.ReadAgain>(outcome.Remedy).Why,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Evaluate_BothRollersTiltedAlike_IsNoTwist()
    {
        var outcome = On(
            Front("left", "0.0200 in", true),
            Front("left", "0.0205 in", false),
            Front("right", "0.0005 in", false),
            Rear("left", "0.0200 in", true),
            Rear("left", "0.0205 in", false),
            Rear("right", "0.0005 in", false)
        );

        Assert.Equal(Verdict.Met, outcome.Verdict);
    }

    [Fact]
    public void Evaluate_ACornerNotTried_AsksForAllFour()
    {
        var outcome = On([Front("left", "0.001 in", false), .. Others[..2]]);

        Assert.Equal((Verdict.Unproven, FindingReason.TooFewStations), (outcome.Verdict, outcome.Reason));
        Assert.Equal("Roller twist: rear roller not read at two stations", outcome.Statement);
        Assert.Equal(
            MeasuredQuantity.RearRollerOnPlate,
            Assert.IsType<Remedy.ReadAgain>(outcome.Remedy).Quantity
        );
    }

    /// <summary>The roller that is asked for is the one that the statement names, with the corners that are lacking.</summary>
    [Fact]
    public void Evaluate_OneCornerRead_AsksForTheRollerThatItNames()
    {
        var frontOnly = On(Front("left", "0.001 in", false));
        var rearOnly = On(Rear("right", "0.001 in", false));
        var third = On([Front("left", "0.001 in", false), .. Others[..2]]);

        Assert.Equal("Roller twist: rear roller not measured", frontOnly.Statement);
        var rear = Assert.IsType<Remedy.ReadAgain>(frontOnly.Remedy);
        Assert.Equal(MeasuredQuantity.RearRollerOnPlate, rear.Quantity);
        Assert.Equal(["left", "right"], rear.Places.AsEnumerable());
        Assert.EndsWith(
            "not read: front right, rear left and rear right",
            rear.Why,
            StringComparison.Ordinal
        );
        Assert.Equal("Roller twist: front roller not measured", rearOnly.Statement);
        Assert.Equal(
            MeasuredQuantity.FrontRollerOnPlate,
            Assert.IsType<Remedy.ReadAgain>(rearOnly.Remedy).Quantity
        );
        Assert.Equal(["right"], Assert.IsType<Remedy.ReadAgain>(third.Remedy).Places.AsEnumerable());
    }

    /// <summary>Stale is stale on the roller that it is: the rear one is read again, not the front one.</summary>
    [Fact]
    public void Evaluate_RearRollerContradictsItself_AsksForTheRearRoller()
    {
        var outcome = On(
            Front("left", "0.001 in", false),
            Front("right", "0.001 in", false),
            Rear("left", "0.001 in", false),
            Rear("left", "0.001 in", true),
            Rear("right", "0.001 in", false)
        );

        Assert.Equal(FindingReason.Conflicting, outcome.Reason);
        Assert.Equal(
            MeasuredQuantity.RearRollerOnPlate,
            Assert.IsType<Remedy.ReadAgain>(outcome.Remedy).Quantity
        );
    }

    /// <summary>Outside values: turf/formulas.json, F36: 0.120 in under one corner is 34 % of a 0.350 in height of cut.</summary>
    [Fact]
    public void Evaluate_FieldFinding_IsToldAsItsShareOfTheHeight()
    {
        using var formulas = JsonDocument.Parse(ReferenceFiles.ReadText("turf", "formulas.json"));
        var example = formulas
            .RootElement.GetProperty("formulas")
            .EnumerateArray()
            .Single(formula => formula.GetProperty("id").GetString() == "F36")
            .GetProperty("worked_example");
        var given = example.GetProperty("inputs");
        string Inches(string member) => $"{given.GetProperty(member).GetDecimal()} in";
        Reading Read(MeasuredQuantity quantity, string station, string value) =>
            Measured(quantity, station, value);

        var outcome = On(
            Height("left", Inches("HOC_in")),
            Height("right", Inches("HOC_in")),
            Read(MeasuredQuantity.FrontRollerOnPlate, "left", Inches("feeler_in")),
            Read(MeasuredQuantity.FrontRollerOnPlate, "right", "0.000 in"),
            Read(MeasuredQuantity.RearRollerOnPlate, "left", "0.000 in"),
            Read(MeasuredQuantity.RearRollerOnPlate, "right", "0.000 in")
        );

        Assert.Equal(Length.FromInches(0.12m), outcome.Comparisons[0].Value);
        var worst = example.GetProperty("result").GetProperty("worst_pct_of_HOC").GetDecimal();
        Assert.Equal($"the twist is {worst:0} % of the height of cut", Assert.Single(outcome.Notices));
    }

    /// <summary>
    /// Three corners stand, each less than 0.0011 in, rear right with front left: front left may be 0.003 - 0.0011 in, so that 0.0018 in
    /// or less has to stop, of a set in halves of a thousandth 0.0015 in. Out is 0.003 + 0.0022 in and 0.0001 in for the feeler: 0.0055 in.
    /// </summary>
    [Fact]
    public void Evaluate_OneCornerHigh_NamesTheFeelersThatSettleItThere()
    {
        var outcome = On([Front("left", "0.001 in", true), .. Others]);

        var again = Assert.IsType<Remedy.ReadAgain>(outcome.Remedy);
        Assert.Equal(MeasuredQuantity.FrontRollerOnPlate, again.Quantity);
        Assert.Equal(["0 mm"], again.Places.AsEnumerable());
        Assert.Equal(
            "which feelers settle the twist: front left: 0.0015 in or less not passing shows it in; 0.0055 in or more passing shows it out",
            again.Why
        );
        Assert.Equal(
            Verdict.Met,
            On([Front("left", "0.001 in", true), Front("left", "0.0015 in", false), .. Others]).Verdict
        );
        Assert.Equal(Verdict.NotMet, On([Front("left", "0.0055 in", true), .. Others]).Verdict);
    }

    /// <summary>0.002 in passed already: with 0.0006 in under rear right 0.0023 in would have to stop, which no set holds.</summary>
    [Fact]
    public void Evaluate_NoUsualFeelerShowsItIn_SaysSoAndWhichShowsItOut()
    {
        var outcome = On([Front("left", "0.002 in", true), .. Others]);

        Assert.Equal(
            "which feelers settle the twist: no feeler of a usual set shows it in; front left: 0.0055 in or more passing shows it out; else read the gaps of the corners with a gauge that measures",
            Assert.IsType<Remedy.ReadAgain>(outcome.Remedy).Why
        );
    }

    /// <summary>Less than 0.0021 in everywhere: at most 0.0042 in. With 0.001 in under two of them 0.0032, under one diagonal less.</summary>
    [Fact]
    public void Evaluate_AllCornersStandByAThickFeeler_NamesTheThinnerOneThatMustNotPass()
    {
        var outcome = On(
            Front("left", "0.002 in", false),
            Front("right", "0.002 in", false),
            Rear("left", "0.002 in", false),
            Rear("right", "0.002 in", false)
        );

        var again = Assert.IsType<Remedy.ReadAgain>(outcome.Remedy);
        Assert.Contains(
            "0.001 in or less not passing under each shows it in",
            again.Why,
            StringComparison.Ordinal
        );
        Assert.DoesNotContain("until one passes", again.Why, StringComparison.Ordinal);
    }

    /// <summary>0.0025 in that stops under front left is no help while the others may be 0.0031 in: they are narrowed with it.</summary>
    [Fact]
    public void Evaluate_HighCornerAndWideOnesThatStand_NamesWhatSettlesThemTogether()
    {
        var outcome = On(
            Front("left", "0.001 in", true),
            Front("left", "0.004 in", false),
            Front("right", "0.004 in", false),
            Rear("left", "0.004 in", false),
            Rear("right", "0.004 in", false)
        );

        var again = Assert.IsType<Remedy.ReadAgain>(outcome.Remedy);
        Assert.Contains("together show it in", again.Why, StringComparison.Ordinal);
        Assert.Contains("front left: ", again.Why, StringComparison.Ordinal);
    }
}
