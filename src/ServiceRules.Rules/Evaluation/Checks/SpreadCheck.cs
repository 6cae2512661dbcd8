using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>Spread of a quantity, as left: between the ends of a unit, between units, or between adjacent ends.</summary>
internal static class SpreadCheck
{
    public static CheckOutcome Evaluate(Check.Spread check, Rule rule, JobFrame frame, UnitFrame? unit) =>
        check.Across switch
        {
            SpreadAcross.Sides when unit is null => Subjects.EachUnit(rule, frame),
            SpreadAcross.Sides => SideToSide.Evaluate(check.Quantity, rule, frame, unit),
            SpreadAcross.Units => UnitSpread.AcrossUnits(check.Quantity, rule, frame),
            SpreadAcross.AdjacentEnds => UnitSpread.AdjacentEnds(check.Quantity, rule, frame),
            _ => throw new InvalidOperationException("spreads are a closed family"),
        };
}
