using ServiceRules.Domain.Geometry;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Tests.Geometry;

namespace ServiceRules.Domain.Tests.Remedies;

/// <summary>
/// A deliberately naive second opinion: tries every setting and every order of single steps, in plain division
/// and with no code of the solver. Gaps are compared with a slack far below a nanometre.
/// </summary>
internal static class BruteForce
{
    private const decimal Slack = 0.00000000001m;

    public static (int Total, decimal Deviation)? Best(ClickTask task)
    {
        var places = Places(task);
        return Settings(task)
            .Select(s => (s.Left, s.Right, Total: Cost(task, s.Left) + Cost(task, s.Right)))
            .Where(s => Excess(task, places, s.Left, s.Right) <= Slack)
            .Select(s =>
                (
                    s.Left,
                    s.Right,
                    s.Total,
                    Deviation: places.Max(p =>
                        Math.Abs(After(task, p, s.Left, s.Right) - task.Target.Millimetres)
                    )
                )
            )
            .OrderBy(s => s.Total)
            .ThenBy(s => s.Deviation)
            .Where(s => !task.KeepClear || CanBeTurned(task, places, s.Left, s.Right))
            .Select(s => ((int, decimal)?)(s.Total, s.Deviation))
            .FirstOrDefault();
    }

    public static decimal LeastExcess(ClickTask task)
    {
        var places = Places(task);
        return Math.Max(0, Settings(task).Min(s => Excess(task, places, s.Left, s.Right)));
    }

    private static List<(decimal At, decimal Gap)> Places(ClickTask task)
    {
        var fit = WidthFit.Through(task.Readings, task.Width)!;
        return
        [
            (0m, fit.LeftEnd.Value()),
            .. task.Readings.Select(r => (r.Station.Millimetres, r.Knowledge.Value())),
            (task.Width.Millimetres, fit.RightEnd.Value()),
        ];
    }

    private static IEnumerable<(int Left, int Right)> Settings(ClickTask task) =>
        from left in Enumerable.Range(-task.Adjusters.Travel, (2 * task.Adjusters.Travel) + 1)
        from right in Enumerable.Range(-task.Adjusters.Travel, (2 * task.Adjusters.Travel) + 1)
        select (left, right);

    private static decimal After(ClickTask task, (decimal At, decimal Gap) place, int left, int right)
    {
        var (a, b) = (task.Adjusters.LeftAt.Millimetres, task.Adjusters.RightAt.Millimetres);
        var leftShare = (b - place.At) / (b - a);
        return place.Gap
            + (task.Adjusters.Step.Millimetres * ((left * leftShare) + (right * (1 - leftShare))));
    }

    private static decimal Excess(
        ClickTask task,
        List<(decimal At, decimal Gap)> places,
        int left,
        int right
    ) =>
        places.Max(p =>
        {
            var after = After(task, p, left, right);
            return Math.Max(
                task.Zone.Lower!.Value.Millimetres - after,
                after - task.Zone.Upper!.Value.Millimetres
            );
        });

    private static bool IsAgainst(ClickTask task, int steps) =>
        (task.Adjusters.Approach == Approach.Opening && steps < 0)
        || (task.Adjusters.Approach == Approach.Closing && steps > 0);

    private static int Cost(ClickTask task, int steps) => Math.Abs(steps) + (IsAgainst(task, steps) ? 2 : 0);

    private static int[] Moves(ClickTask task, int steps)
    {
        var straight = Enumerable.Repeat(Math.Sign(steps), Math.Abs(steps));
        return IsAgainst(task, steps) ? [.. straight, Math.Sign(steps), -Math.Sign(steps)] : [.. straight];
    }

    /// <summary>Depth-first over every interleaving of the two sides.</summary>
    private static bool CanBeTurned(
        ClickTask task,
        List<(decimal At, decimal Gap)> places,
        int left,
        int right
    )
    {
        var (leftMoves, rightMoves) = (Moves(task, left), Moves(task, right));
        var seen = new HashSet<(int, int)>();
        return places.All(p => After(task, p, left, right) > 0) && From(0, 0, 0, 0);

        bool From(int i, int j, int leftAt, int rightAt) =>
            seen.Add((i, j))
            && (
                (i == leftMoves.Length && j == rightMoves.Length)
                || (
                    i < leftMoves.Length
                    && Permitted(leftAt, rightAt, leftAt + leftMoves[i], rightAt)
                    && From(i + 1, j, leftAt + leftMoves[i], rightAt)
                )
                || (
                    j < rightMoves.Length
                    && Permitted(leftAt, rightAt, leftAt, rightAt + rightMoves[j])
                    && From(i, j + 1, leftAt, rightAt + rightMoves[j])
                )
            );

        bool Permitted(int fromLeft, int fromRight, int toLeft, int toRight) =>
            places.All(p =>
            {
                var (before, after) = (After(task, p, fromLeft, fromRight), After(task, p, toLeft, toRight));
                return after > Slack || (before <= Slack && after >= before - Slack);
            });
    }
}
