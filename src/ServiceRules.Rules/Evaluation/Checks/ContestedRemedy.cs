using System.Collections.Immutable;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// No count and no distance is told out of readings that contradict one another: what has to be read again is told in its
/// place. A breach that other readings show stays a breach.
/// </summary>
internal static class ContestedRemedy
{
    public const string Why =
        "it is out, but readings contradict one another, so that they do not tell how far to turn";

    /// <summary>The outcome with what has to be read again in place of a remedy that rests on a contradiction.</summary>
    public static CheckOutcome Withheld(CheckOutcome outcome, Check check, JobFrame frame, UnitFrame? unit) =>
        outcome.Remedy switch
        {
            Remedy.Turn or Remedy.Move or Remedy.CannotBeTurnedIn when unit is not null => QuantitiesOf(check)
                .Select(quantity => ReadAgain(unit, quantity))
                .OfType<Remedy>()
                .FirstOrDefault()
                is { } again
                ? outcome with
                {
                    Remedy = again,
                }
                : outcome,
            Remedy.MoveUnits move
                when OfSet(frame.Units, Bench.AdjustedQuantity.SetBy(move.Adjuster)) is { } again =>
                outcome with
                {
                    Remedy = again,
                },
            _ => outcome,
        };

    /// <summary>What has to be read again on a unit; none where nothing of the quantity contradicts itself.</summary>
    public static Remedy.ReadAgain? ReadAgain(UnitFrame unit, MeasuredQuantity quantity) =>
        Contradicting(unit, quantity) is { IsEmpty: false } places
            ? new(quantity, [.. places.Select(obstacle => obstacle.Place)], Why)
            : null;

    /// <summary>
    /// The same of units that are held against one another: what one of them is moved by depends on all of them.
    /// </summary>
    public static Remedy.ReadAgain? OfSet(IEnumerable<UnitFrame> units, MeasuredQuantity quantity) =>
        units.Where(unit => IsHeldToOthers(unit, quantity) && !Contradicting(unit, quantity).IsEmpty).ToList()
            is { Count: > 0 } contested
            ? new(quantity, [.. contested.Select(unit => unit.Work.Id.Text)], Why)
            : null;

    private static bool IsHeldToOthers(UnitFrame unit, MeasuredQuantity quantity) =>
        unit.Sheet.Of(quantity) is { AcrossUnits: not null } or { AdjacentEnds: not null };

    private static ImmutableArray<Obstacle> Contradicting(UnitFrame unit, MeasuredQuantity quantity) =>
        [
            .. UnitPlaces
                .Of(unit, quantity)
                .Obstacles.Where(obstacle => obstacle.Reason is FindingReason.Conflicting),
        ];

    private static MeasuredQuantity[] QuantitiesOf(Check check) =>
        check switch
        {
            Check.LimitOnQuantity limit => [limit.Quantity],
            Check.ProceduralLimit procedural => [procedural.Quantity],
            Check.Spread spread => [spread.Quantity],
            Check.Parallelism parallelism => [parallelism.Quantity],
            Check.Relation relation => [relation.Quantity, relation.Other],
            _ => [],
        };
}
