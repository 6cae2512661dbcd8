using System.Collections.Frozen;

namespace ServiceRules.Domain.Timeline;

/// <summary>
/// Devices that start, stop or permit a machine and do not keep energy out: push buttons, selector switches, keys and other
/// devices of the control circuit isolate nothing.
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

    /// <summary>Whether a kind of isolator, as a record names it, is a control device and so isolates nothing.</summary>
    /// <param name="isolator">In any spelling: case, underscores, hyphens and blanks tell nothing apart.</param>
    public static bool IsControlDevice(string isolator)
    {
        ArgumentNullException.ThrowIfNull(isolator);
        return Known.Contains(
            string.Concat(isolator.Where(char.IsAsciiLetterOrDigit).Select(char.ToLowerInvariant))
        );
    }
}
