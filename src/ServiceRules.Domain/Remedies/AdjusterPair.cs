using System.Diagnostics.CodeAnalysis;
using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Remedies;

/// <summary>
/// Two adjusters, left and right, that move one rigid line in equal steps. A step on one side turns the line
/// about the other: at station x, cL steps left and cR steps right move it by
/// step·(cL·(b - x) + cR·(x - a))/(b - a), positive opening (derived lever geometry).
/// </summary>
public sealed record AdjusterPair
{
    /// <summary>The most steps either side is ever asked to turn: beyond that, something else is wrong.</summary>
    public const int MostSteps = 200;

    private AdjusterPair(Length leftAt, Length rightAt, Length step, Approach approach)
    {
        LeftAt = leftAt;
        RightAt = rightAt;
        Step = step;
        (LeastStep, MostStep) = (step, step);
        Approach = approach;
    }

    /// <summary>a: distance of the left adjuster from the left end; negative when it stands outside.</summary>
    public Length LeftAt { get; }

    /// <summary>b: distance of the right adjuster from the left end; right of the left adjuster.</summary>
    public Length RightAt { get; }

    /// <summary>The movement of one step at its own adjuster; above zero. The governing print, exactly.</summary>
    public Length Step { get; }

    /// <summary>
    /// The least that one step may really obtain, from zero to <see cref="Step"/>, which it is unless stated: what an opening
    /// step is sure to add where contact is counted.
    /// </summary>
    public Length LeastStep
    {
        get;
        init =>
            field =
                value >= Length.Zero && value <= Step
                    ? value
                    : throw new ArgumentOutOfRangeException(
                        nameof(value),
                        value,
                        "accepted is zero to the step itself"
                    );
    }

    /// <summary>
    /// The most that one step may really obtain, <see cref="Step"/> or more, which it is unless stated: what a closing step may
    /// take where contact is counted.
    /// </summary>
    public Length MostStep
    {
        get;
        init =>
            field =
                value >= Step
                    ? value
                    : throw new ArgumentOutOfRangeException(
                        nameof(value),
                        value,
                        "accepted is the step itself or more"
                    );
    }

    /// <summary>How each side that was turned must be finished.</summary>
    public Approach Approach { get; }

    /// <summary>
    /// How many steps a side goes too far and comes back when its direction is against
    /// <see cref="Approach"/>; from 1 to 10.
    /// </summary>
    public int TakeUp
    {
        get;
        init =>
            field = value is >= 1 and <= 10
                ? value
                : throw new ArgumentOutOfRangeException(nameof(value), value, "accepted is 1 to 10 steps");
    } = 1;

    /// <summary>The most steps either side may end away from where it stands; from 0 to <see cref="MostSteps"/>.</summary>
    public int Travel
    {
        get;
        init =>
            field = value is >= 0 and <= MostSteps
                ? value
                : throw new ArgumentOutOfRangeException(nameof(value), value, "accepted is 0 to 200 steps");
    } = MostSteps;

    /// <summary>
    /// Makes a pair; refuses a step that is not above zero and adjusters less than 1 mm apart or out of order.
    /// </summary>
    public static bool TryCreate(
        Length leftAt,
        Length rightAt,
        Length step,
        Approach approach,
        [NotNullWhen(true)] out AdjusterPair? pair
    )
    {
        var usable = step > Length.Zero && rightAt - leftAt >= Length.FromMillimetres(1);
        pair = usable ? new(leftAt, rightAt, step, approach) : null;
        return usable;
    }

    /// <summary>How far the line moves at a station, rounded to 1e-12 mm.</summary>
    public Length Movement(int leftSteps, int rightSteps, Length station)
    {
        var lever =
            (leftSteps * (RightAt - station).Millimetres) + (rightSteps * (station - LeftAt).Millimetres);
        return Geometry.Rounding.ToLength(Step.Millimetres * lever / (RightAt - LeftAt).Millimetres);
    }

    /// <summary>The single movements of one side: straight, or one take-up too far and back.</summary>
    /// <returns>+1 for each opening step, -1 for each closing one.</returns>
    internal int[] MovesFor(int steps)
    {
        var direction = Math.Sign(steps);
        if (!IsAgainstApproach(steps))
        {
            return [.. Enumerable.Repeat(direction, Math.Abs(steps))];
        }

        return
        [
            .. Enumerable.Repeat(direction, Math.Abs(steps) + TakeUp),
            .. Enumerable.Repeat(-direction, TakeUp),
        ];
    }

    /// <summary>How many steps a side is turned in all, going too far and back included.</summary>
    internal int Cost(int steps) => Math.Abs(steps) + (IsAgainstApproach(steps) ? 2 * TakeUp : 0);

    private bool IsAgainstApproach(int steps) =>
        (Approach == Approach.Opening && steps < 0) || (Approach == Approach.Closing && steps > 0);
}
