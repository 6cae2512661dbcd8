using System.Diagnostics.CodeAnalysis;
using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Measurement;

/// <summary>
/// An interval in which a length certainly lies, from go/no-go tests: each end open or closed, or missing
/// when nothing bounds that side. Never empty. No distribution inside it is claimed.
/// </summary>
public sealed record LengthInterval : Knowledge
{
    private LengthInterval(IntervalEnd? lower, IntervalEnd? upper)
    {
        Lower = lower;
        Upper = upper;
    }

    /// <summary>Nothing is known.</summary>
    public static LengthInterval Unbounded { get; } = new(null, null);

    /// <summary>The lower end; none when nothing bounds the length below.</summary>
    public IntervalEnd? Lower { get; }

    /// <summary>The upper end; none when nothing bounds the length above.</summary>
    public IntervalEnd? Upper { get; }

    /// <summary>Upper minus lower end; none when an end is missing.</summary>
    public Length? Width => Lower is { } lower && Upper is { } upper ? upper.Value - lower.Value : null;

    /// <inheritdoc/>
    public override Length? Middle => (Least + Greatest) * 0.5m;

    /// <inheritdoc/>
    public override Length? Least => Lower?.Value;

    /// <inheritdoc/>
    public override Length? Greatest => Upper?.Value;

    /// <summary>Makes an interval of two ends; refuses one that would hold no length at all.</summary>
    public static bool TryCreate(
        IntervalEnd? lower,
        IntervalEnd? upper,
        [NotNullWhen(true)] out LengthInterval? interval
    )
    {
        interval = IsEmpty(lower, upper) ? null : new(lower, upper);
        return interval is not null;
    }

    /// <summary>At least this length.</summary>
    public static LengthInterval AtLeast(Length lower) => new(IntervalEnd.Closed(lower), null);

    /// <summary>Less than this length.</summary>
    public static LengthInterval LessThan(Length upper) => new(null, IntervalEnd.Open(upper));

    /// <summary>Between two lengths, both possible.</summary>
    /// <exception cref="ArgumentException">The lower length is above the upper one.</exception>
    public static LengthInterval Between(Length lower, Length upper) =>
        TryCreate(IntervalEnd.Closed(lower), IntervalEnd.Closed(upper), out var interval)
            ? interval
            : throw new ArgumentException(
                $"`{lower}` is above `{upper}`; accepted is lower end first",
                nameof(lower)
            );

    /// <summary>A feeler that passes: the gap is at least t - e.</summary>
    /// <param name="thickness">Thickness t of the feeler.</param>
    /// <param name="tolerance">Tolerance e of that thickness, zero or more.</param>
    public static LengthInterval FeelerPasses(Length thickness, Length tolerance)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(tolerance.Millimetres, nameof(tolerance));
        return AtLeast(thickness - tolerance);
    }

    /// <summary>A feeler that does not pass: the gap is less than t + e.</summary>
    /// <param name="thickness">Thickness t of the feeler.</param>
    /// <param name="tolerance">Tolerance e of that thickness, zero or more.</param>
    public static LengthInterval FeelerDoesNotPass(Length thickness, Length tolerance)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(tolerance.Millimetres, nameof(tolerance));
        return LessThan(thickness + tolerance);
    }

    /// <summary>
    /// What both intervals allow, or the contradiction when no length satisfies both. A contradiction is for
    /// a person to resolve: it is never averaged away.
    /// </summary>
    public IntervalMeeting Meet(LengthInterval other)
    {
        var lower = Tighter(Lower, other.Lower, lowerSide: true);
        var upper = Tighter(Upper, other.Upper, lowerSide: false);
        return TryCreate(lower, upper, out var overlap)
            ? new IntervalMeeting.Overlap(overlap)
            : new IntervalMeeting.Contradiction(this, other);
    }

    /// <summary>The smallest interval that holds both: what is known when either may be the right one.</summary>
    public LengthInterval Hull(LengthInterval other)
    {
        return new(Wider(Lower, other.Lower, lowerSide: true), Wider(Upper, other.Upper, lowerSide: false));
    }

    /// <summary>Whether a length is possible.</summary>
    public bool Contains(Length value) =>
        (Lower is not { } lower || value > lower.Value || (value == lower.Value && lower.IsClosed))
        && (Upper is not { } upper || value < upper.Value || (value == upper.Value && upper.IsClosed));

    /// <inheritdoc/>
    public override Knowledge ShiftedBy(Length by, Length halfWidth)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(halfWidth.Millimetres, nameof(halfWidth));
        return new LengthInterval(Moved(Lower, by - halfWidth), Moved(Upper, by + halfWidth));
    }

    /// <inheritdoc/>
    public override LengthInterval AsInterval() => this;

    /// <summary>In the notation of ISO 80000-2: <c>[0.02 mm, 0.03 mm[</c>.</summary>
    public override string ToString()
    {
        var lower = Lower is { } l ? $"{(l.IsClosed ? '[' : ']')}{l.Value}" : "]-∞";
        var upper = Upper is { } u ? $"{u.Value}{(u.IsClosed ? ']' : '[')}" : "∞[";
        return $"{lower}, {upper}";
    }

    private static bool IsEmpty(IntervalEnd? lower, IntervalEnd? upper) =>
        lower is { } l
        && upper is { } u
        && (l.Value > u.Value || (l.Value == u.Value && !(l.IsClosed && u.IsClosed)));

    private static IntervalEnd? Moved(IntervalEnd? end, Length by) =>
        end is { } given ? given with { Value = given.Value + by } : null;

    private static IntervalEnd? Wider(IntervalEnd? first, IntervalEnd? second, bool lowerSide)
    {
        if (first is not { } a || second is not { } b)
        {
            return null;
        }

        if (a.Value == b.Value)
        {
            return a with { IsClosed = a.IsClosed || b.IsClosed };
        }

        return a.Value < b.Value == lowerSide ? a : b;
    }

    private static IntervalEnd? Tighter(IntervalEnd? first, IntervalEnd? second, bool lowerSide)
    {
        if (first is not { } a || second is not { } b)
        {
            return first ?? second;
        }

        if (a.Value == b.Value)
        {
            return a with { IsClosed = a.IsClosed && b.IsClosed };
        }

        return a.Value > b.Value == lowerSide ? a : b;
    }
}
