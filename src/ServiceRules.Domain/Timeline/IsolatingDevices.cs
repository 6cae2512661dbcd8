using System.Collections.Frozen;

namespace ServiceRules.Domain.Timeline;

/// <summary>
/// Devices that keep energy out by what they are called: a breaker, a disconnect, a line valve, a plug pulled, a block
/// (29 CFR 1910.147(b), energy isolating device), and what of the trade stands for one of them. Whatever else cuts energy off,
/// the site writes down.
/// </summary>
public static class IsolatingDevices
{
    // In any part of a word: a switch-disconnector, a stopcock, an isolator.
    private static readonly string[] Parts =
    [
        "disconnect",
        "isolat",
        "breaker",
        "valve",
        "plug",
        "connector",
    ];

    // Common practice, no source: what is opened, taken off or put between.
    private static readonly FrozenSet<string> Words = new[]
    {
        "tap",
        "stopcock",
        "cock",
        "petcock",
        "lead",
        "leads",
        "cable",
        "cables",
        "terminal",
        "terminals",
        "battery",
        "batteries",
        "fuse",
        "fuses",
        "coupling",
        "couplings",
        "coupler",
        "couplers",
        "block",
        "blank",
        "blind",
    }.ToFrozenSet(StringComparer.Ordinal);

    // A switch of the power circuit and none of the control circuit.
    private static readonly FrozenSet<string> OfPower = new[]
    {
        "main",
        "mains",
        "master",
        "wall",
        "rotary",
        "knife",
    }.ToFrozenSet(StringComparer.Ordinal);

    // What is at such a device, and is none: a battery cover, a valve gauge, the label of a breaker.
    private static readonly FrozenSet<string> AtOne = new[]
    {
        "cover",
        "cap",
        "label",
        "sticker",
        "sign",
        "notice",
        "lamp",
        "light",
        "gauge",
        "guard",
        "hood",
        "tray",
        "charger",
        "indicator",
        "monitor",
        "tester",
        "meter",
    }.ToFrozenSet(StringComparer.Ordinal);

    /// <summary>Whether a kind of isolator, as a record names it, is one that keeps energy out.</summary>
    /// <param name="isolator">In any spelling: case, underscores, hyphens and blanks tell nothing apart.</param>
    public static bool IsOne(string isolator)
    {
        ArgumentNullException.ThrowIfNull(isolator);
        var words = ControlDevices.Words(isolator);
        return !words.Exists(AtOne.Contains)
            && (
                words.Exists(word =>
                    Words.Contains(word)
                    || Array.Exists(Parts, part => word.Contains(part, StringComparison.Ordinal))
                ) || (words.Contains("switch") && words.Exists(OfPower.Contains))
            );
    }
}
