using System.Collections.Immutable;
using ServiceRules.Domain.Site;

namespace ServiceRules.Application.Authoring;

/// <summary>
/// Kinds of machine with the sources of energy that such machines usually have: common practice, no source. Somewhere to begin,
/// and marked as such until each was read in the machine's own manual. Figures for checking again are not among them: they are
/// the manual's alone.
/// </summary>
public static class MachineExamples
{
    /// <summary>What stands before words that were taken over from an example.</summary>
    public const string Mark = "NOT YET READ IN THIS MACHINE'S OWN MANUAL";

    private static readonly EnergySource Engine = new()
    {
        Id = new("engine_start"),
        Title = "Engine start",
        Isolator = "battery_disconnect",
        Lockable = true,
        Proof = "start attempt from the operator's position, people clear, controls back to neutral",
    };

    private static readonly EnergySource PlugLead = Engine with { Isolator = "plug_lead", Lockable = false };

    private static readonly EnergySource Hydraulic = new()
    {
        Id = new("hydraulic"),
        Title = "Hydraulic pressure of lift and reel circuit",
        Stored = true,
        Reaccumulates = true,
        Release = "engine stopped, units down, move the lift and reel controls through their travel",
        Proof = "controls move without effect and the reel turns freely with a tool",
    };

    private static readonly EnergySource Gravity = new()
    {
        Id = new("gravity"),
        Title = "Raised unit",
        Stored = true,
        Release = "units down on a firm floor, or on stands or latches rated for them",
        Proof = "unit rests and does not sink when pushed down",
    };

    private static readonly EnergySource Reel = new()
    {
        Id = new("reel_rotation"),
        Title = "Turning reel",
        Stored = true,
        Release = "reel wedged or latched against turning",
        Proof = "reel does not turn when pushed with a tool",
    };

    private static readonly EnergySource Mains = new()
    {
        Id = new("mains_supply"),
        Title = "Wired mains supply",
        Isolator = "wall_isolator",
        Lockable = true,
        Proof = "start button pressed with people clear: nothing moves",
    };

    private static readonly EnergySource Wheel = new()
    {
        Id = new("wheel_rotation"),
        Title = "Wheel and reel running down",
        Stored = true,
        Release = "wait until wheel and reel are seen at rest, then wedge the reel",
        Proof = "wheel does not turn when touched with a wooden stick",
    };

    private static readonly ImmutableSortedDictionary<string, ImmutableArray<EnergySource>> Kinds =
        ImmutableSortedDictionary.CreateRange(
            StringComparer.Ordinal,
            [
                KeyValuePair.Create<string, ImmutableArray<EnergySource>>(
                    "ride-on",
                    [Engine, Hydraulic, Gravity]
                ),
                KeyValuePair.Create<string, ImmutableArray<EnergySource>>(
                    "towed-gang",
                    [Engine, Hydraulic, Gravity, Reel]
                ),
                KeyValuePair.Create<string, ImmutableArray<EnergySource>>("pedestrian", [PlugLead, Reel]),
                KeyValuePair.Create<string, ImmutableArray<EnergySource>>("grinder", [Mains, Wheel, Gravity]),
            ]
        );

    /// <summary>The kinds there are.</summary>
    public static string Names { get; } = string.Join(", ", Kinds.Keys);

    /// <summary>What such a machine usually has, its words marked; null: there is no such kind.</summary>
    /// <param name="kind">The kind.</param>
    public static ImmutableArray<EnergySource>? Of(string kind) =>
        Kinds.TryGetValue(kind, out var sources) ? [.. sources.Select(Marked)] : null;

    /// <summary>Whether words of a source were taken over and not read in the machine's own manual.</summary>
    /// <param name="source">The source.</param>
    public static bool IsTakenOver(EnergySource source)
    {
        ArgumentNullException.ThrowIfNull(source);
        return IsTakenOver(source.Proof) || IsTakenOver(source.Release);
    }

    internal static bool IsTakenOver(string? words) =>
        words?.StartsWith(Mark, StringComparison.Ordinal) == true;

    internal static string Marked(string words) => IsTakenOver(words) ? words : $"{Mark}: {words}";

    private static EnergySource Marked(EnergySource source) =>
        source with
        {
            Proof = Marked(source.Proof),
            Release = source.Release is { } release ? Marked(release) : null,
        };
}
