using ServiceRules.Domain.Geometry;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Records;
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
                        Math.Max(
                            Math.Abs(p.Low + Movement(task, p.At, s.Left, s.Right) - task.Target.Millimetres),
                            Math.Abs(p.High + Movement(task, p.At, s.Left, s.Right) - task.Target.Millimetres)
                        )
                    )
                )
            )
            .OrderBy(s => s.Total)
            .ThenBy(s => s.Deviation)
            .Where(s => !task.KeepClear || CanBeTurned(task, Felt(task), s.Left, s.Right))
            .Select(s => ((int, decimal)?)(s.Total, s.Deviation))
            .FirstOrDefault();
    }

    /// <summary>Of the settings that are safe to turn to; none when no setting is.</summary>
    public static decimal? LeastExcess(ClickTask task)
    {
        var places = Places(task);
        return Reached(task).Select(s => (decimal?)Math.Max(0, Excess(task, places, s.Left, s.Right))).Min();
    }

    /// <summary>
    /// The same where what is in is to stay in: of the settings that put out no place which was read and is in now, where one of them betters what
    /// is there now or something touches now; else of all.
    /// </summary>
    public static decimal? LeastExcessKeepingIn(ClickTask task)
    {
        var places = Places(task);
        var isIn = places.FindAll(place =>
            task.Readings.Any(r => r.Station.Millimetres == place.At) && Excess(task, [place], 0, 0) <= 0
        );
        var now = Math.Max(0, Excess(task, places, 0, 0));
        var kept = Reached(task)
            .Where(s => isIn.TrueForAll(place => Excess(task, [place], s.Left, s.Right) <= Slack))
            .Select(s => (decimal?)Math.Max(0, Excess(task, places, s.Left, s.Right)))
            .Min();
        return kept is not null && (kept < now - Slack || Touches(task, Felt(task), 0, 0))
            ? kept
            : LeastExcess(task);
    }

    private static IEnumerable<(int Left, int Right)> Reached(ClickTask task)
    {
        var felt = Felt(task);
        return Settings(task).Where(s => !task.KeepClear || CanBeTurned(task, felt, s.Left, s.Right));
    }

    /// <summary>Fewest steps, net on both sides, of all settings that miss the zone by as little as any.</summary>
    public static int FewestStepsAtLeastExcess(ClickTask task)
    {
        var (places, least) = (Places(task), LeastExcess(task));
        return Reached(task)
            .Where(s => Excess(task, places, s.Left, s.Right) <= least + Slack)
            .Min(s => Math.Abs(s.Left) + Math.Abs(s.Right));
    }

    /// <summary>In the least possible number of states in contact; none when no order is permitted.</summary>
    public static int? FewestContacts(ClickTask task, int left, int right)
    {
        var (leftMoves, rightMoves) = (Moves(task, left), Moves(task, right));
        var places = Felt(task);
        var known = new Dictionary<(int, int), int?>();
        return From(0, 0, 0, 0);

        int? From(int i, int j, int leftAt, int rightAt)
        {
            if (known.TryGetValue((i, j), out var before))
            {
                return before;
            }

            List<int?> ahead = i == leftMoves.Length && j == rightMoves.Length ? [0] : [];
            if (
                i < leftMoves.Length
                && Permitted(task, places, leftAt, rightAt, leftAt + leftMoves[i], rightAt)
            )
            {
                ahead.Add(From(i + 1, j, leftAt + leftMoves[i], rightAt));
            }

            if (
                j < rightMoves.Length
                && Permitted(task, places, leftAt, rightAt, leftAt, rightAt + rightMoves[j])
            )
            {
                ahead.Add(From(i, j + 1, leftAt, rightAt + rightMoves[j]));
            }

            return known[(i, j)] = ahead.Min() + (Touches(task, places, leftAt, rightAt) ? 1 : 0);
        }
    }

    /// <summary>How many states in contact a sequence passes through; none when it makes a step that is not permitted.</summary>
    public static int? ContactsOf(ClickTask task, IEnumerable<SingleStep> sequence)
    {
        var places = Felt(task);
        var (left, right, contacts) = (0, 0, Touches(task, places, 0, 0) ? 1 : 0);
        foreach (var step in sequence)
        {
            var by = step.Opens ? 1 : -1;
            var (nextLeft, nextRight) = step.Side == Side.Left ? (left + by, right) : (left, right + by);
            if (!Permitted(task, places, left, right, nextLeft, nextRight))
            {
                return null;
            }

            (left, right) = (nextLeft, nextRight);
            contacts += Touches(task, places, left, right) ? 1 : 0;
        }

        return contacts;
    }

    private static bool Touches(
        ClickTask task,
        List<(decimal At, decimal Low, decimal High)> places,
        int left,
        int right
    ) => places.Any(p => p.Low + Movement(task, p.At, left, right) <= Slack);

    /// <summary>Whether any place touches with both adjusters moved so far, in millimetres.</summary>
    public static bool TouchesAt(ClickTask task, decimal left, decimal right)
    {
        var (a, b) = (task.Adjusters.LeftAt.Millimetres, task.Adjusters.RightAt.Millimetres);
        return Felt(task)
            .Exists(p => p.Low + (((left * (b - p.At)) + (right * (p.At - a))) / (b - a)) < -Slack);
    }

    private static bool Permitted(
        ClickTask task,
        List<(decimal At, decimal Low, decimal High)> places,
        int fromLeft,
        int fromRight,
        int toLeft,
        int toRight
    ) =>
        places.All(p =>
        {
            var before = p.Low + Movement(task, p.At, fromLeft, fromRight);
            var after = p.Low + Movement(task, p.At, toLeft, toRight);
            return after > Slack || (before <= Slack && after >= before - Slack);
        });

    /// <summary>
    /// What may touch: where the readings are estimates, what is really known; at the ends of a line that bends, by
    /// either shape.
    /// </summary>
    private static List<(decimal At, decimal Low, decimal High)> Felt(ClickTask task)
    {
        var known = task.Bounds.IsEmpty ? task.Readings : task.Bounds;
        return Places(
            task with
            {
                Readings =
                    known.Length < 3
                        ? known
                        : [.. known.Select(each => each with { Knowledge = each.Knowledge.AsInterval() })],
            }
        );
    }

    private static List<(decimal At, decimal Low, decimal High)> Places(ClickTask task)
    {
        var fit = WidthFit.Through(task.Readings, task.Width)!;
        bool IsRead(decimal end) => task.Readings.Any(r => Math.Abs(r.Station.Millimetres - end) <= 5);

        List<(decimal At, decimal Low, decimal High)> places =
        [
            .. task.Readings.Select(r => Place(r.Station.Millimetres, r.Knowledge)),
        ];
        if (!IsRead(0m))
        {
            places.Insert(0, Place(0m, fit.LeftEnd));
        }

        if (!IsRead(task.Width.Millimetres))
        {
            places.Add(Place(task.Width.Millimetres, fit.RightEnd));
        }

        return places;
    }

    private static (decimal At, decimal Low, decimal High) Place(decimal at, Knowledge known) =>
        known is LengthInterval interval
            ? (at, interval.Lower!.Value.Value.Millimetres, interval.Upper!.Value.Value.Millimetres)
            : (at, known.Value(), known.Value());

    private static IEnumerable<(int Left, int Right)> Settings(ClickTask task) =>
        from left in Enumerable.Range(-task.Adjusters.Travel, (2 * task.Adjusters.Travel) + 1)
        from right in Enumerable.Range(-task.Adjusters.Travel, (2 * task.Adjusters.Travel) + 1)
        select (left, right);

    private static decimal Movement(ClickTask task, decimal at, int left, int right)
    {
        var (a, b) = (task.Adjusters.LeftAt.Millimetres, task.Adjusters.RightAt.Millimetres);
        var leftShare = (b - at) / (b - a);
        return task.Adjusters.Step.Millimetres * ((left * leftShare) + (right * (1 - leftShare)));
    }

    private static decimal Excess(
        ClickTask task,
        List<(decimal At, decimal Low, decimal High)> places,
        int left,
        int right
    ) =>
        places.Max(p =>
        {
            var moved = Movement(task, p.At, left, right);
            return Math.Max(
                task.Zone.Lower!.Value.Millimetres - (p.Low + moved),
                p.High + moved - task.Zone.Upper!.Value.Millimetres
            );
        });

    private static bool IsAgainst(ClickTask task, int steps) =>
        (task.Adjusters.Approach == Approach.Opening && steps < 0)
        || (task.Adjusters.Approach == Approach.Closing && steps > 0);

    private static int Cost(ClickTask task, int steps) =>
        Math.Abs(steps) + (IsAgainst(task, steps) ? 2 * task.Adjusters.TakeUp : 0);

    private static int[] Moves(ClickTask task, int steps)
    {
        var sign = Math.Sign(steps);
        var straight = Enumerable.Repeat(sign, Math.Abs(steps));
        return IsAgainst(task, steps)
            ?
            [
                .. straight,
                .. Enumerable.Repeat(sign, task.Adjusters.TakeUp),
                .. Enumerable.Repeat(-sign, task.Adjusters.TakeUp),
            ]
            : [.. straight];
    }

    private static bool CanBeTurned(
        ClickTask task,
        List<(decimal At, decimal Low, decimal High)> places,
        int left,
        int right
    ) => !Touches(task, places, left, right) && FewestContacts(task, left, right) is not null;
}
