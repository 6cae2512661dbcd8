using System.Collections.Immutable;
using ServiceRules.Domain.Geometry;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;

namespace ServiceRules.Domain.Remedies;

/// <summary>
/// Finds whole steps left and right that land every station and both ends in a zone. Order of aims: all
/// inside; then fewest steps turned in all; then the least largest deviation from the target; then the
/// least difference between the sides; then fewer steps on the right. Order of turning: one step at a time,
/// always on the side with more steps left, and alternately where both have the same; where readings are estimates, the
/// side that opens before the side that closes.
/// </summary>
public static class ClickSolver
{
    /// <summary>Solves a task exactly: the answer is the best of all settings within the travel.</summary>
    public static ClickSolution Solve(ClickTask task)
    {
        if (!task.Bounds.IsEmpty && task.Bounds.Length != task.Readings.Length)
        {
            throw new ArgumentException(
                $"{task.Bounds.Length} bounds stand beside {task.Readings.Length} readings; accepted is one for each, or none",
                nameof(task)
            );
        }

        if (!task.Lines.IsEmpty && task.Lines.Length != task.Readings.Length)
        {
            throw new ArgumentException(
                $"{task.Lines.Length} lines stand beside {task.Readings.Length} readings; accepted is one for each, or none",
                nameof(task)
            );
        }

        if (task.Readings.IsEmpty || (!task.StationsOnly && !HasEnds(task)))
        {
            return new ClickSolution.Infeasible(BindingConstraint.EndsUnknown, null);
        }

        var problem = new ClickProblem(task);
        var rows = problem.FeasibleRows(problem.Constraints, task.Adjusters.Travel);
        if (rows.Count == 0)
        {
            return Infeasible(problem);
        }

        foreach (var candidates in ByTotal(problem, rows))
        {
            foreach (var (left, right) in candidates)
            {
                if (TurningOrder.Find(problem, left, right) is { } sequence)
                {
                    return new ClickSolution.Plan(
                        left,
                        right,
                        sequence,
                        problem.Landings(left, right, sequence),
                        problem.LargestDeviation(left, right)
                    );
                }
            }
        }

        return Infeasible(problem, BindingConstraint.ContactOnTheWay);
    }

    /// <summary>
    /// How many of these single steps cannot touch though each that closes took as much as this, and each that opens added no more than
    /// the least of the task; none where none of them can. Contact is counted as it is where the steps were found.
    /// </summary>
    /// <param name="task">What the steps were found for.</param>
    /// <param name="sequence">The single steps in the order of turning.</param>
    /// <param name="most">The most that a step may take, no less than the step itself.</param>
    public static int? StepsBeforeContact(ClickTask task, ImmutableArray<SingleStep> sequence, Length most)
    {
        var problem = new ClickProblem(task with { Adjusters = task.Adjusters with { MostStep = most } });
        var at = (Left: default(SideTurned), Right: default(SideTurned));
        for (var turned = 0; turned < sequence.Length; turned++)
        {
            var move = sequence[turned].Opens ? 1 : -1;
            var next =
                sequence[turned].Side is Side.Left
                    ? (at.Left.Then(move), at.Right)
                    : (at.Left, at.Right.Then(move));
            if (problem.Deepens(at, next))
            {
                return turned;
            }

            at = next;
        }

        return null;
    }

    /// <summary>Whether some line reaches the ends: of one that was read at a single station the station alone is told.</summary>
    private static bool HasEnds(ClickTask task) =>
        task.Lines.IsEmpty
            ? WidthFit.Through(task.Readings, task.Width, task.Shared) is not null
            : task
                .Readings.Zip(task.Lines)
                .GroupBy(each => each.Second, each => each.First)
                .Any(line => WidthFit.Through([.. line], task.Width, task.Shared) is not null);

    private static ClickSolution.Infeasible Infeasible(ClickProblem problem, BindingConstraint binding) =>
        new(
            binding,
            // Where contact, or the travel of a gap, alone stands in the way a part of the way is turned, and what is in is not put out for it.
            problem.Nearest(
                binding is BindingConstraint.ContactAtTheEnd or BindingConstraint.ContactOnTheWay
                    || (binding is BindingConstraint.Travel && problem.Task.KeepClear)
            )
        )
        {
            StartsFree = problem.StartsFree,
        };

    /// <summary>Settings that land inside, in groups of equal total cost, each group in order of preference.</summary>
    private static IEnumerable<IEnumerable<(int Left, int Right)>> ByTotal(
        ClickProblem problem,
        IReadOnlyList<StepRow> rows
    )
    {
        var adjusters = problem.Task.Adjusters;
        var most = 2 * (adjusters.Travel + (2 * adjusters.TakeUp));
        for (var total = 0; total <= most; total++)
        {
            var group = (
                from row in rows
                let rest = total - adjusters.Cost(row.Left)
                where rest >= 0
                from right in StepsThatCost(adjusters, rest)
                where right >= row.RightFrom && right <= row.RightTo
                select (row.Left, Right: right)
            ).ToList();
            yield return group
                .OrderBy(c => problem.ScaledDeviation(c.Left, c.Right))
                .ThenBy(c => Math.Abs(c.Left - c.Right))
                .ThenBy(c => Math.Abs(c.Right));
        }
    }

    private static IEnumerable<int> StepsThatCost(AdjusterPair adjusters, int cost) =>
        new[] { cost, -cost, cost - (2 * adjusters.TakeUp), (2 * adjusters.TakeUp) - cost }
            .Where(steps => adjusters.Cost(steps) == cost)
            .Distinct();

    private static ClickSolution.Infeasible Infeasible(ClickProblem problem)
    {
        if (problem.HasKnowledgeWiderThanZone)
        {
            return Infeasible(problem, BindingConstraint.KnowledgeTooWide);
        }

        var binding = problem.IsBowedBeyondZone
            ? problem.IsOneLineBowedBeyondZone
                ? BindingConstraint.Straightness
                : BindingConstraint.LinesApart
            : problem.FeasibleRows(problem.ZoneConstraints, problem.Task.Adjusters.Travel).Count > 0
                ? BindingConstraint.ContactAtTheEnd
                : problem.IsFeasibleBeyondTheTravel
                    ? BindingConstraint.Travel
                    : BindingConstraint.StepSize;
        return Infeasible(problem, binding);
    }
}
