using System.Collections.Frozen;

namespace ServiceRules.Domain.Timeline;

/// <summary>
/// Devices that stop or permit a machine and do not keep energy out: 29 CFR 1910.147(b) says of push buttons, selector
/// switches and other control-circuit devices that they are not energy isolating devices.
/// </summary>
public static class ControlDevices
{
    private static readonly FrozenSet<string> Known = new[]
    {
        "stopbutton",
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
