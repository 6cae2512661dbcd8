using System.Collections.Immutable;
using FsCheck.Xunit;
using ServiceRules.Domain.Conformity;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Remedies;
using static ServiceRules.Domain.Tests.ReferenceNumber;

namespace ServiceRules.Domain.Tests.Remedies;

/// <summary>The solver against brute force: every combination of every setting, in plain loops.</summary>
[Properties(MaxTest = PropertyCases.Each)]
public sealed class MatchSolverPropertyTests
{
    private const decimal Part = 0.05m;
    private static readonly decimal[] Levels = [3.90m, 3.95m, 4.00m, 4.05m, 4.10m];

    [Property]
    public void Solve_AnyMachine_IsAsGoodAsBruteForce(sbyte[] heights, byte form)
    {
        if (TaskOf(heights, form) is not { } task)
        {
            return;
        }

        var best = Best(task);
        var plan = MatchSolver.Solve(task);

        Assert.Equal(best is null, plan is null);
        if (best is { } wanted && plan is not null)
        {
            var found = Aims(
                task,
                [.. plan.Settings.Select(s => (s.IsMoved, s.LeftEnd.Millimetres, s.RightEnd.Millimetres))]
            );
            Assert.Equal((wanted.Moved, wanted.Steps), (found.Moved, found.Steps));
            Near(wanted.Off, found.Off, 0.0004m);
            Near(wanted.Spread, found.Spread, 0.0002m);
        }
    }

    [Property]
    public void Solve_AnyPlan_KeepsEveryLimitAndStandsWhereItSays(sbyte[] heights, byte form)
    {
        if (TaskOf(heights, form) is not { } task || MatchSolver.Solve(task) is not { } plan)
        {
            return;
        }

        foreach (var (setting, unit) in plan.Settings.Zip(task.Units))
        {
            Assert.Equal(unit.Left + setting.Left, setting.LeftEnd);
            Assert.Equal(unit.Right + setting.Right, setting.RightEnd);
            Assert.True(setting.IsMoved || !unit.MustMove);
            Assert.Equal(setting.IsMoved, setting.Left.Millimetres != 0 || setting.Right.Millimetres != 0);
            Assert.True(
                !setting.IsMoved
                    || (unit.Zone!.Contains(setting.LeftEnd) && unit.Zone.Contains(setting.RightEnd))
            );
        }

        Assert.True(
            Keeps(task, [.. plan.Settings.Select(s => (s.LeftEnd.Millimetres, s.RightEnd.Millimetres))])
        );
    }

    [Property]
    public void Solve_MirroredMachine_IsAsGoodTheOtherWayRound(sbyte[] heights, byte form)
    {
        if (TaskOf(heights, form) is not { } task)
        {
            return;
        }

        var mirrored = task with
        {
            Units =
            [
                .. task.Units.Reverse().Select(unit => unit with { Left = unit.Right, Right = unit.Left }),
            ],
            Steps = [.. task.Steps.Reverse()],
        };
        var (plain, other) = (MatchSolver.Solve(task), MatchSolver.Solve(mirrored));

        Assert.Equal((plain?.Moved, plain?.Steps), (other?.Moved, other?.Steps));
    }

    private static MatchTask? TaskOf(sbyte[] heights, byte form)
    {
        var count = Math.Min(heights.Length / 2, 3);
        if (count == 0)
        {
            return null;
        }

        ImmutableArray<MatchUnit> units =
        [
            .. Enumerable
                .Range(0, count)
                .Select(index => Unit(heights[2 * index], heights[(2 * index) + 1], form, index)),
        ];
        return new()
        {
            Units = units,
            Together = (form & 1) == 0 ? Mm(0.08m) : null,
            Steps =
                (form & 2) == 0
                    ?
                    [
                        .. Enumerable
                            .Range(0, count - 1)
                            .Select(i => i == 1 && (form & 64) == 0 ? null : (Length?)Mm(0.07m)),
                    ]
                    : [],
        };
    }

    private static MatchUnit Unit(sbyte left, sbyte right, byte form, int index) =>
        MatchSolverTests.Unit(4m + ((left % 25) * 0.01m), 4m + ((right % 25) * 0.01m)) with
        {
            Part = Mm(Part),
            Moves = (MoveKind)((form >> 2) % 3),
            Zone = ToleranceZone.Between(Mm(3.90m), Mm(4.10m)),
            MustMove = ((form >> (4 + index)) & 1) == 1 && (left & 1) == 0,
            IsInSet = index != 2 || (form & 128) == 0,
        };

    /// <summary>Where a unit may end: as it is, or by the meaning of its kind of move. Written without the solver.</summary>
    private static List<(bool Moved, decimal Left, decimal Right)> Choices(MatchUnit unit)
    {
        var (left, right) = (unit.Left.Millimetres, unit.Right.Millimetres);
        var found = new List<(bool, decimal, decimal)>();
        if (!unit.MustMove)
        {
            found.Add((false, left, right));
        }

        if (unit.Moves is MoveKind.Freely)
        {
            found.AddRange(Levels.Select(level => (true, level, level)));
        }
        else
        {
            for (var i = -12; i <= 12; i++)
            {
                for (var j = -12; j <= 12; j++)
                {
                    found.Add((true, left + (i * Part), right + (j * Part)));
                }
            }

            // Level to within a part.
            found.RemoveAll(each => each.Item1 && Math.Abs(each.Item2 - each.Item3) > Part);
        }

        found.RemoveAll(each =>
            each.Item1
            && (
                (each.Item2 == left && each.Item3 == right)
                || Math.Min(each.Item2, each.Item3) < 3.90m
                || Math.Max(each.Item2, each.Item3) > 4.10m
            )
        );
        return found;
    }

    private static bool Keeps(MatchTask task, List<(decimal Left, decimal Right)> ends)
    {
        var middles = ends.Where((_, i) => task.Units[i].IsInSet)
            .Select(e => (e.Left + e.Right) / 2)
            .ToList();
        return (
                task.Together is null
                || middles.Count == 0
                || middles.Max() - middles.Min() <= task.Together.Value.Millimetres
            )
            && Enumerable
                .Range(0, Math.Max(0, ends.Count - 1))
                .All(i =>
                    task.Steps.IsEmpty
                    || task.Steps[i] is not { } most
                    || Math.Abs(ends[i].Right - ends[i + 1].Left) <= most.Millimetres
                );
    }

    private static (int Moved, int Steps, decimal Off, decimal Spread) Aims(
        MatchTask task,
        List<(bool Moved, decimal Left, decimal Right)> set
    )
    {
        var middles = set.Where((_, i) => task.Units[i].IsInSet).Select(e => (e.Left + e.Right) / 2).ToList();
        return (
            set.Count(each => each.Moved),
            set.Select(
                    (each, i) =>
                        task.Units[i].Moves is MoveKind.BySteps
                            ? (int)(
                                (
                                    Math.Abs(each.Left - task.Units[i].Left.Millimetres)
                                    + Math.Abs(each.Right - task.Units[i].Right.Millimetres)
                                ) / Part
                            )
                            : 0
                )
                .Sum(),
            set.Sum(each => Math.Abs(each.Left - 4m) + Math.Abs(each.Right - 4m)),
            middles.Count == 0 ? 0 : middles.Max() - middles.Min()
        );
    }

    private static (int Moved, int Steps, decimal Off, decimal Spread)? Best(MatchTask task)
    {
        (int Moved, int Steps, decimal Off, decimal Spread)? best = null;
        var choices = task.Units.Select(Choices).ToList();
        Try([]);
        return best;

        void Try(ImmutableList<(bool Moved, decimal Left, decimal Right)> set)
        {
            if (set.Count == choices.Count)
            {
                var aims = Aims(task, [.. set]);
                best = best is { } known && known.CompareTo(aims) <= 0 ? known : aims;
                return;
            }

            foreach (var choice in choices[set.Count])
            {
                var longer = set.Add(choice);
                if (
                    Keeps(
                        task with
                        {
                            Units = task.Units[..longer.Count],
                            Steps = task.Steps.IsEmpty ? [] : task.Steps[..(longer.Count - 1)],
                        },
                        [.. longer.Select(e => (e.Left, e.Right))]
                    )
                )
                {
                    Try(longer);
                }
            }
        }
    }
}
