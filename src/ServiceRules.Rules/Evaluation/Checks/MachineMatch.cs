using System.Collections.Immutable;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Statistics;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// The one plan for a quantity over all units of a machine: on target, level, alike and without a step where they meet.
/// Every rule on that quantity tells its part of it, so that no two rules ask for different moves. Limits are drawn in
/// by the doubt of the readings, so that the next reading can prove what was set.
/// </summary>
internal sealed class MachineMatch
{
    private readonly ImmutableArray<(MatchedUnit Unit, MatchSetting Setting)> settings;

    private MachineMatch(ImmutableArray<(MatchedUnit, MatchSetting)> settings) => this.settings = settings;

    /// <summary>
    /// The plan; where the machine as a whole has none, that of a unit by itself. None when nothing that can be set keeps
    /// the limits, or nothing is known well enough.
    /// </summary>
    public static MachineMatch? For(JobFrame frame, MeasuredQuantity quantity, UnitFrame? unit = null)
    {
        var machine = frame.Plans.Of(
            quantity,
            null,
            // How one of them is moved depends on all of them; no unit is moved to match what a gauge that proves nothing showed.
            () =>
                ContestedRemedy.OfSet(frame.Units, quantity) is null
                    ? Solved([.. Known(frame, quantity).Where(each => !each.IsDoubted)], quantity)
                    : null
        );
        return unit is null || machine?.Holds(unit) is true
            ? machine
            : frame.Plans.Of(
                quantity,
                unit.Index,
                () =>
                    Solved(
                        [.. Known(frame, quantity).Where(each => ReferenceEquals(each.Frame, unit))],
                        quantity
                    )
            );
    }

    private bool Holds(UnitFrame unit) => settings.Any(each => ReferenceEquals(each.Unit.Frame, unit));

    private static ImmutableArray<MatchedUnit> Known(JobFrame frame, MeasuredQuantity quantity) =>
        MatchedUnit.Known(
            frame
                .Units.OrderBy(each => each.Work.Position ?? int.MaxValue)
                .ThenBy(each => each.Work.Id.Text, StringComparer.Ordinal),
            quantity,
            frame.Book
        );

    /// <summary>What to move on one unit; none when it stays, or is not in the plan.</summary>
    public Remedy.Move? Of(UnitFrame unit)
    {
        foreach (var (matched, setting) in settings)
        {
            if (ReferenceEquals(matched.Frame, unit) && setting.IsMoved)
            {
                return matched.Move(setting);
            }
        }

        return null;
    }

    /// <summary>What to move on the machine; none when everything stays.</summary>
    public Remedy.MoveUnits? OfMachine()
    {
        ImmutableArray<UnitMove> moves =
        [
            .. settings.Where(each => each.Setting.IsMoved).Select(each => each.Unit.UnitMove(each.Setting)),
        ];
        return moves.IsEmpty
            ? null
            : new(
                settings[0].Unit.Adjuster,
                moves,
                [
                    .. settings
                        .Where(each => !each.Setting.IsMoved)
                        .Select(each => each.Unit.Frame.Work.Id.Text),
                ]
            );
    }

    private static MachineMatch? Solved(ImmutableArray<MatchedUnit> units, MeasuredQuantity quantity)
    {
        if (units.IsEmpty || units.Length > MatchTask.MostUnits)
        {
            return null;
        }

        // Where nothing names a target, the units go to the one in the middle.
        var aim = Median.Of(units.Select(unit => unit.Middle.Knowledge.Middle!.Value));
        var task = new MatchTask
        {
            Units = [.. units.Select(unit => unit.Problem(aim))],
            Together = Together(units, quantity),
            Steps = [.. units.Zip(units.Skip(1), (left, right) => Step(left, right, quantity))],
        };
        var plan = MatchSolver.Solve(task);
        if (plan?.Settings.Any(setting => setting.IsMoved) is true && !units.All(unit => unit.IsProven))
        {
            // A unit left where its limit is not proven would hold the machine after all that turning.
            plan =
                MatchSolver.Solve(
                    task with
                    {
                        Units =
                        [
                            .. task.Units.Zip(
                                units,
                                (problem, unit) =>
                                    problem with
                                    {
                                        MustMove = problem.MustMove || !unit.IsProven,
                                    }
                            ),
                        ],
                    }
                ) ?? plan;
        }

        return plan is null ? null : new([.. units.Zip(plan.Settings)]);
    }

    /// <summary>The tightest limit across units, less the doubt of the least known pair.</summary>
    private static Length? Together(ImmutableArray<MatchedUnit> units, MeasuredQuantity quantity)
    {
        var set = units.Where(unit => unit.IsInSet).ToList();
        if (set.Count < 2)
        {
            return null;
        }

        var most = set.Min(unit => unit.Narrowest(unit.Frame.Sheet.Of(quantity)!.AcrossUnits!));
        var doubt = (
            from first in set
            from second in set
            where first != second
            select MatchedUnit.Doubt(first.Middle.Above(second.Middle, quantity, first.Middle.Name).Knowledge)
        ).Max();
        return Guarded(most, doubt);
    }

    private static Length? Step(MatchedUnit left, MatchedUnit right, MeasuredQuantity quantity)
    {
        if (
            left.Frame.Work.Position is not { } position
            || right.Frame.Work.Position != position + 1
            || Tighter(left, right, quantity) is not { } most
        )
        {
            return null;
        }

        return Guarded(
            most,
            MatchedUnit.Doubt(left.RightEnd.Above(right.LeftEnd, quantity, left.RightEnd.Name).Knowledge)
        );
    }

    private static Length? Tighter(MatchedUnit left, MatchedUnit right, MeasuredQuantity quantity)
    {
        var limits = new[] { left, right }
            .SelectMany<MatchedUnit, Length>(unit =>
                unit.Frame.Sheet.Of(quantity)?.AdjacentEnds is { } print ? [unit.Narrowest(print)] : []
            )
            .ToList();
        return limits.Count == 0 ? null : limits.Min();
    }

    /// <summary>Where the gauge is too coarse to prove the limit at all, the limit itself is aimed for.</summary>
    public static Length Guarded(Length most, Length doubt) => most > doubt ? most - doubt : most;
}
