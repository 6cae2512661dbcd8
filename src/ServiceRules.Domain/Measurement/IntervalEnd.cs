using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Measurement;

/// <summary>One end of an interval.</summary>
/// <param name="Value">Where the interval ends.</param>
/// <param name="IsClosed">Whether the end itself is possible.</param>
public readonly record struct IntervalEnd(Length Value, bool IsClosed)
{
    /// <summary>An end that is itself possible.</summary>
    public static IntervalEnd Closed(Length value) => new(value, true);

    /// <summary>An end that is itself excluded.</summary>
    public static IntervalEnd Open(Length value) => new(value, false);
}
