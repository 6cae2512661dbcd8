using ServiceRules.Domain.Measurement;
using static ServiceRules.Domain.Tests.ReferenceNumber;

namespace ServiceRules.Domain.Tests.Conformity;

/// <summary>Intervals as they are written: a bracket turned outward leaves its end out.</summary>
internal static class BracketedInterval
{
    public static LengthInterval Of(string left, decimal lower, decimal upper, string right) =>
        LengthInterval.TryCreate(
            new IntervalEnd(Mm(lower), left == "["),
            new IntervalEnd(Mm(upper), right == "]"),
            out var interval
        )
            ? interval
            : throw new ArgumentException($"{left}{lower}, {upper}{right} is no interval", nameof(lower));
}
