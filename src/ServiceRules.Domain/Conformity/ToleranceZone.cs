using System.Diagnostics.CodeAnalysis;
using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Conformity;

/// <summary>
/// The permitted values of a quantity: a lower limit, an upper limit, or both. Whether a limit itself is permitted is
/// <see cref="LimitItself"/>, decided in exact decimals. A two-sided zone is ordered; permitted limits may coincide.
/// </summary>
public sealed record ToleranceZone
{
    private ToleranceZone(Length? lower, Length? upper, LimitItself limitItself)
    {
        Lower = lower;
        Upper = upper;
        LimitItself = limitItself;
    }

    /// <summary>Whether a value exactly on a limit is permitted.</summary>
    public LimitItself LimitItself { get; }

    /// <summary>The least permitted value; none in a zone that only has an upper limit.</summary>
    public Length? Lower { get; }

    /// <summary>The greatest permitted value; none in a zone that only has a lower limit.</summary>
    public Length? Upper { get; }

    /// <summary>Upper minus lower limit, in a two-sided zone.</summary>
    public Length? Width => Lower is { } lower && Upper is { } upper ? upper - lower : null;

    /// <summary>Half way between the limits, in a two-sided zone.</summary>
    public Length? Middle => Lower is { } lower && Upper is { } upper ? (lower + upper) * 0.5m : null;

    /// <summary>Makes a zone; refuses one without any limit, or that no value lies in.</summary>
    public static bool TryCreate(
        Length? lower,
        Length? upper,
        [NotNullWhen(true)] out ToleranceZone? zone,
        LimitItself limitItself = LimitItself.Permitted
    )
    {
        var isEmpty =
            lower > upper || (limitItself is LimitItself.Excluded && lower is not null && lower == upper);
        var usable = (lower is not null || upper is not null) && !isEmpty;
        zone = usable ? new(lower, upper, limitItself) : null;
        return usable;
    }

    /// <summary>At most this value.</summary>
    public static ToleranceZone AtMost(Length upper) => new(null, upper, LimitItself.Permitted);

    /// <summary>At least this value.</summary>
    public static ToleranceZone AtLeast(Length lower) => new(lower, null, LimitItself.Permitted);

    /// <summary>From one value to another.</summary>
    /// <exception cref="ArgumentException">The limits are crossed.</exception>
    public static ToleranceZone Between(Length lower, Length upper) =>
        TryCreate(lower, upper, out var zone)
            ? zone
            : throw new ArgumentException(
                $"`{lower}` is above `{upper}`; accepted is lower limit first",
                nameof(lower)
            );

    /// <summary>The same limits, themselves permitted or not; none when no value is left.</summary>
    public ToleranceZone? With(LimitItself limitItself) =>
        TryCreate(Lower, Upper, out var zone, limitItself) ? zone : null;

    /// <summary>Whether a value is permitted.</summary>
    public bool Contains(Length value) =>
        LimitItself is LimitItself.Permitted
            ? !(value < Lower) && !(value > Upper)
            : !(value <= Lower) && !(value >= Upper);

    /// <summary>
    /// Distance of a value from the nearest limit: positive inside, negative outside, zero on a limit.
    /// </summary>
    public Length MarginOf(Length value) =>
        (Lower, Upper) switch
        {
            ({ } lower, { } upper) => Length.Min(value - lower, upper - value),
            ({ } lower, null) => value - lower,
            _ => Upper!.Value - value,
        };

    /// <summary>The values both zones permit; none when they share nothing.</summary>
    public ToleranceZone? Intersect(ToleranceZone other)
    {
        var lower = Lower > other.Lower ? Lower : other.Lower ?? Lower;
        var upper = Upper < other.Upper ? Upper : other.Upper ?? Upper;
        var limitItself = LimitItself is LimitItself.Excluded ? LimitItself : other.LimitItself;
        return TryCreate(lower, upper, out var zone, limitItself) ? zone : null;
    }

    /// <summary>
    /// Where a remedy aims when a limit is printed in two unit systems: inside both prints, or inside the
    /// governing one when they do not overlap.
    /// </summary>
    /// <param name="governing">The zone by the governing prints.</param>
    /// <param name="alternate">The zone by the alternate prints; none when a limit is printed once.</param>
    public static ToleranceZone InsideBothPrints(ToleranceZone governing, ToleranceZone? alternate) =>
        alternate is null ? governing : governing.Intersect(alternate) ?? governing;

    /// <summary>
    /// Each limit moved toward the inside by g (toward the outside when g is negative); none when the limits
    /// would cross.
    /// </summary>
    public ToleranceZone? DrawnIn(Length guard) =>
        TryCreate(Lower + guard, Upper - guard, out var zone, LimitItself) ? zone : null;

    /// <summary>The zone in words: <c>0.02 mm to 0.05 mm</c>, <c>at most 0.05 mm</c>, <c>below 0.05 mm</c>.</summary>
    public override string ToString() =>
        (Lower, Upper, LimitItself) switch
        {
            ({ } lower, { } upper, LimitItself.Permitted) => $"{lower} to {upper}",
            ({ } lower, { } upper, _) => $"above {lower}, below {upper}",
            ({ } lower, null, LimitItself.Permitted) => $"at least {lower}",
            ({ } lower, null, _) => $"above {lower}",
            (_, _, LimitItself.Permitted) => $"at most {Upper}",
            _ => $"below {Upper}",
        };
}
