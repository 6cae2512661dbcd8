using System.Collections.Immutable;
using ServiceRules.Domain.Records;

namespace ServiceRules.Domain.Remedies;

/// <summary>
/// Orders the single steps of both sides: the side with more steps left goes next, the sides alternate where
/// both have the same, and the left begins. Where contact is to be avoided, a step that would touch, or go
/// deeper into contact, is put off; a start in contact is left in the fewest steps. Where the gaps are estimates, the side
/// that is to open comes before the one that is to close.
/// </summary>
internal sealed class TurningOrder
{
    private const int Unreachable = int.MaxValue;

    private readonly ClickProblem _problem;
    private readonly int[] _leftMoves;
    private readonly int[] _rightMoves;
    private readonly SideTurned[] _leftAt;
    private readonly SideTurned[] _rightAt;
    private readonly int[][] _contacts;
    private readonly Side? _first;

    private TurningOrder(ClickProblem problem, int left, int right)
    {
        _problem = problem;
        _leftMoves = problem.Task.Adjusters.MovesFor(left);
        _rightMoves = problem.Task.Adjusters.MovesFor(right);
        _leftAt = Positions(_leftMoves);
        _rightAt = Positions(_rightMoves);
        // What is only estimated may be tighter than it looks, until something opens.
        _first =
            problem.Task is { KeepClear: true, Bounds.IsEmpty: false }
            && Math.Sign(left) * Math.Sign(right) < 0
                ? (left > 0 ? Side.Left : Side.Right)
                : null;
        _contacts = [.. _leftAt.Select(_ => new int[_rightAt.Length])];
    }

    /// <summary>The order; none when contact bars every order.</summary>
    public static ImmutableArray<SingleStep>? Find(ClickProblem problem, int left, int right)
    {
        var order = new TurningOrder(problem, left, right);
        if (problem.Task.KeepClear)
        {
            order.CountContacts();
        }

        return order._contacts[0][0] == Unreachable ? null : order.Walk();
    }

    /// <summary>
    /// From the end backwards: how many states in contact the best permitted way from here still passes through,
    /// this one included.
    /// </summary>
    private void CountContacts()
    {
        for (var i = _leftMoves.Length; i >= 0; i--)
        {
            for (var j = _rightMoves.Length; j >= 0; j--)
            {
                var isEnd = i == _leftMoves.Length && j == _rightMoves.Length;
                var ahead = isEnd ? 0 : Math.Min(Through(i, j, i + 1, j), Through(i, j, i, j + 1));
                _contacts[i][j] = ahead == Unreachable ? Unreachable : ahead + (Touches(i, j) ? 1 : 0);
            }
        }
    }

    private ImmutableArray<SingleStep> Walk()
    {
        var steps = ImmutableArray.CreateBuilder<SingleStep>(_leftMoves.Length + _rightMoves.Length);
        var (i, j, last) = (0, 0, Side.Right);
        while (i < _leftMoves.Length || j < _rightMoves.Length)
        {
            last = Next(i, j, last);
            var move = last == Side.Left ? _leftMoves[i++] : _rightMoves[j++];
            steps.Add(new(last, move > 0));
        }

        return steps.MoveToImmutable();
    }

    private Side Next(int i, int j, Side last)
    {
        var (throughLeft, throughRight) = (Through(i, j, i + 1, j), Through(i, j, i, j + 1));
        if (throughLeft != throughRight)
        {
            return throughLeft < throughRight ? Side.Left : Side.Right;
        }

        if (_first is { } first && i < _leftMoves.Length && j < _rightMoves.Length)
        {
            return first;
        }

        var (left, right) = (_leftMoves.Length - i, _rightMoves.Length - j);
        return left > right || (left == right && last == Side.Right) ? Side.Left : Side.Right;
    }

    /// <summary>What lies ahead by one step, or unreachable when there is no such step or it is barred.</summary>
    private int Through(int i, int j, int nextLeft, int nextRight)
    {
        if (nextLeft > _leftMoves.Length || nextRight > _rightMoves.Length)
        {
            return Unreachable;
        }

        var barred =
            _problem.Task.KeepClear
            && _problem.Deepens((_leftAt[i], _rightAt[j]), (_leftAt[nextLeft], _rightAt[nextRight]));
        return barred ? Unreachable : _contacts[nextLeft][nextRight];
    }

    private bool Touches(int i, int j) => _problem.Places.Any(p => p.Touches(_leftAt[i], _rightAt[j]));

    private static SideTurned[] Positions(int[] moves)
    {
        var positions = new SideTurned[moves.Length + 1];
        for (var i = 0; i < moves.Length; i++)
        {
            positions[i + 1] = positions[i].Then(moves[i]);
        }

        return positions;
    }
}
