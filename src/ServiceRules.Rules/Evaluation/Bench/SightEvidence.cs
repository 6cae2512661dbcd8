using ServiceRules.Domain.Records;

namespace ServiceRules.Rules.Evaluation.Bench;

/// <summary>The last sight of one kind at one place, which conflicts when the one before it was another.</summary>
/// <typeparam name="T">What was seen.</typeparam>
/// <param name="Seen">The last one; none when there is none, or they conflict.</param>
/// <param name="Conflicts">The last two differ with nothing done between.</param>
internal readonly record struct SightEvidence<T>(T? Seen, bool Conflicts)
    where T : struct, Enum
{
    public static SightEvidence<T> Of(
        IEnumerable<LoggedReading> current,
        Func<Observation, T?> kind,
        Func<T, T, bool>? agree = null
    )
    {
        var seen = current.Select(reading => kind(reading.Observed)).OfType<T>().TakeLast(2).ToList();
        return seen switch
        {
            [] => new(null, false),
            [var first, var second] when !(agree?.Invoke(first, second) ?? first.Equals(second)) => new(
                null,
                true
            ),
            _ => new(seen[^1], false),
        };
    }
}
