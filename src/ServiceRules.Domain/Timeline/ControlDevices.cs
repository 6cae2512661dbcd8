using System.Collections.Frozen;

namespace ServiceRules.Domain.Timeline;

/// <summary>
/// Devices that start, stop or permit a machine and do not keep energy out: push buttons, selector switches, keys and other
/// devices of the control circuit isolate nothing (29 CFR 1910.147(b), energy isolating device).
/// </summary>
public static class ControlDevices
{
    private static readonly FrozenSet<string> Known = new[]
    {
        "stopbutton",
        "startbutton",
        "startstopbutton",
        "pushbutton",
        "button",
        "emergencystop",
        "emergencystopbutton",
        "key",
        "ignition",
        "ignitionkey",
        "ignitionswitch",
        "keyswitch",
        "selector",
        "selectorswitch",
        "seatswitch",
        "hourmeterfob",
    }.ToFrozenSet(StringComparer.Ordinal);

    // Of what asks a machine to stop, whatever it is called besides.
    private static readonly string[] Stops = ["kill", "stop", "estop", "remote", "wireless", "button"];

    // Of a lever, a screen, a relay, a cut-out: the controls of a machine, unless the site knows better.
    private static readonly string[] Controls =
    [
        "lever",
        "joystick",
        "pto",
        "clutch",
        "pedal",
        "throttle",
        "choke",
        "screen",
        "touchscreen",
        "display",
        "menu",
        "software",
        "app",
        "panel",
        "pendant",
        "control",
        "controls",
        "controller",
        "selector",
        "relay",
        "solenoid",
        "interlock",
        "cutout",
        "presence",
        "bail",
        "seat",
        "key",
        "ignition",
    ];

    // What does keep energy out, or is taken apart to do so.
    private static readonly string[] Isolating =
    [
        "disconnect",
        "isolat",
        "breaker",
        "valve",
        "cock",
        "plug",
        "connector",
        "battery",
        "terminal",
    ];

    /// <summary>Whether a kind of isolator, as a record names it, is a control device and so isolates nothing.</summary>
    /// <param name="isolator">
    /// In any spelling: case, underscores, hyphens and blanks tell nothing apart. A <c>kill switch</c> or a <c>remote stop</c> is
    /// one by a word of it, unless another word is of what does isolate.
    /// </param>
    public static bool IsControlDevice(string isolator)
    {
        ArgumentNullException.ThrowIfNull(isolator);
        return Known.Contains(Plain(isolator)) || (HasWordOf(Stops, isolator) && !IsOfIsolating(isolator));
    }

    /// <summary>
    /// Whether its words are those of a control, so that only the site can say that it keeps energy out: a lever, a screen, a
    /// cut-out; also what is named both as a stop and as what isolates, such as a battery kill switch. A stop valve or a stop tap is none.
    /// </summary>
    /// <param name="isolator">In any spelling.</param>
    public static bool MayBeControlDevice(string isolator)
    {
        ArgumentNullException.ThrowIfNull(isolator);
        return !IsControlDevice(isolator)
            && (
                IsOfIsolating(isolator)
                    ? HasWordOf(Stops, isolator) && !IsStopValve(isolator)
                    : HasWordOf(Controls, isolator)
            );
    }

    private static bool IsOfIsolating(string isolator) =>
        Array.Exists(Isolating, word => Plain(isolator).Contains(word, StringComparison.Ordinal))
        || Words(isolator).Exists(word => word is "tap" or "lead");

    // A stop valve, stop tap or stopcock is named after what it does to what flows.
    private static bool IsStopValve(string isolator) =>
        Words(isolator)
            .Exists(word =>
                word is "tap"
                || word.EndsWith("valve", StringComparison.Ordinal)
                || word.EndsWith("cock", StringComparison.Ordinal)
            ) && !Words(isolator).Exists(word => word != "stop" && Array.IndexOf(Stops, word) >= 0);

    // Written in one word or in two: a killswitch, a cut-out.
    private static bool HasWordOf(string[] words, string isolator)
    {
        var said = Words(isolator);
        return Array.Exists(words, said.Contains)
            || said.Exists(word =>
                word.EndsWith("switch", StringComparison.Ordinal) && Array.IndexOf(words, word[..^6]) >= 0
            )
            || Enumerable
                .Range(0, Math.Max(0, said.Count - 1))
                .Any(at => Array.IndexOf(words, said[at] + said[at + 1]) >= 0);
    }

    /// <summary>The words of a name, in small letters.</summary>
    internal static List<string> Words(string isolator)
    {
        var words = new List<string>();
        var from = 0;
        for (var at = 0; at <= isolator.Length; at++)
        {
            if (at < isolator.Length && char.IsAsciiLetterOrDigit(isolator[at]))
            {
                continue;
            }

            if (at > from)
            {
                words.Add(Plain(isolator[from..at]));
            }

            from = at + 1;
        }

        return words;
    }

    private static string Plain(string text) =>
        string.Concat(text.Where(char.IsAsciiLetterOrDigit).Select(char.ToLowerInvariant));
}
