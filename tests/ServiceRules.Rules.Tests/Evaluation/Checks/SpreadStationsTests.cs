using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;
using static ServiceRules.Rules.Tests.Evaluation.Sample;

namespace ServiceRules.Rules.Tests.Evaluation.Checks;

/// <summary>Units held against one another by ends and stations of which some were read and some were not.</summary>
public class SpreadStationsTests
{
    private static readonly Check Units = new Check.Spread(MeasuredQuantity.HeightOfCut, SpreadAcross.Units);

    private static readonly Check Adjacent = new Check.Spread(
        MeasuredQuantity.HeightOfCut,
        SpreadAcross.AdjacentEnds
    );

    private static UnitWork At(int position, string left, string right) =>
        Unit(Height("left", left), Height("right", right)) with
        {
            Id = new($"U-01-{position}"),
            Position = position,
        };

    private static CheckOutcome Set(Check check, params UnitWork[] units) =>
        CheckEvaluation.Evaluate(RuleFor(check), FrameBuilder.Build(Record(units), Context, Book()), null);

    /// <summary>
    /// Unit 1 is bowed by 0.10 mm: by the line its right end would be 4.02 ± 0.1 mm. It was read 4.00 mm, 3 mm inside, and that is
    /// what meets the next unit.
    /// </summary>
    [Theory]
    [InlineData("507 mm", Verdict.Met)]
    [InlineData("500 mm", Verdict.Unproven)]
    public void Evaluate_AdjacentEndThatWasRead_IsAsRead(string station, Verdict verdict)
    {
        var bowed = Unit(
            Height("left", "4.00 mm"),
            Height("middle", "4.10 mm"),
            Height("right", "4.00 mm"),
            Height(station, "4.00 mm")
        ) with
        {
            Id = new("U-01-1"),
            Position = 1,
        };

        var outcome = Set(Adjacent, bowed, At(2, "4.00 mm", "4.00 mm"));

        Assert.Equal(verdict, outcome.Verdict);
    }

    /// <summary>What is missing is a station of the unit, not the unit.</summary>
    [Theory]
    [InlineData("left", "Height of cut across units: not read at the gauging stations of U-01-2 and U-01-3")]
    [InlineData(
        "200 mm",
        "Height of cut across units: not read at the gauging stations of U-01-2 and U-01-3"
    )]
    public void Evaluate_StationsOfUnitsNotRead_SaysThatStationsAreMeant(string station, string expected)
    {
        UnitWork Once(int position) =>
            Unit(Height(station, "4.00 mm")) with
            {
                Id = new($"U-01-{position}"),
                Position = position,
            };

        var outcome = Set(Units, At(1, "4.00 mm", "4.00 mm"), Once(2), Once(3));

        Assert.Equal(expected, outcome.Statement);
        Assert.Equal(
            ["U-01-2", "U-01-3"],
            Assert.IsType<Remedy.ReadAgain>(outcome.Remedy).Places.AsEnumerable()
        );
    }

    /// <summary>A sheet that names no gauging stations asks for any two.</summary>
    [Fact]
    public void Evaluate_OneStationOfAUnitWithoutGaugingStations_AsksForTwo()
    {
        var sheet = Sheet with
        {
            Quantities =
            [
                .. Sheet.Quantities.Select(limit => limit with { LeftStation = null, RightStation = null }),
            ],
        };
        UnitWork[] units =
        [
            At(1, "4.00 mm", "4.00 mm"),
            Unit(Height("left", "4.00 mm")) with
            {
                Id = new("U-01-2"),
            },
        ];

        var outcome = CheckEvaluation.Evaluate(
            RuleFor(Units),
            FrameBuilder.Build(Record(units), Context, Book(sheet)),
            null
        );

        Assert.Equal("Height of cut across units: not read at two stations of U-01-2", outcome.Statement);
    }
}
