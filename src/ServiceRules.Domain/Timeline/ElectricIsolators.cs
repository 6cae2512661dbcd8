using System.Collections.Frozen;

namespace ServiceRules.Domain.Timeline;

/// <summary>
/// Isolators of electricity. A valve that is closed lets nothing through; a switch that is closed lets everything through:
/// <c>closed</c> says the opposite of the two.
/// </summary>
public static class ElectricIsolators
{
    private static readonly FrozenSet<string> Sources = new[]
    {
        "engine_start",
        "battery_drive",
        "mains_cord",
    }.ToFrozenSet(StringComparer.Ordinal);

    private static readonly string[] Valves = ["valve", "tap", "cock"];

    private static readonly string[] Switches = ["disconnect", "switch", "breaker", "contactor", "plug"];

    /// <summary>
    /// Whether <c>closed</c>, in an entry, leaves the isolator live: what it names is a switch, or its source is electricity
    /// and what it names is no valve.
    /// </summary>
    /// <param name="entry">An entry about an isolator, or about a lock or tag on one.</param>
    public static bool IsClosedLive(TimelineEvent entry)
    {
        ArgumentNullException.ThrowIfNull(entry);
        if (entry.Position != IsolatorPosition.Closed)
        {
            return false;
        }

        var isOfElectricity =
            entry.Source is SourceReference.One { Source: var source } && Sources.Contains(source.Text);
        return entry.Isolator is { } isolator
            ? !Names(isolator, Valves) && (isOfElectricity || Names(isolator, Switches))
            : isOfElectricity;
    }

    private static bool Names(string isolator, string[] words) =>
        Array.Exists(words, word => isolator.Contains(word, StringComparison.OrdinalIgnoreCase));
}
