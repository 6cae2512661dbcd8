using System.Globalization;

namespace ServiceRules.Reporting.Layout;

/// <summary>A printed colour, red green blue.</summary>
public readonly record struct Ink(byte Red, byte Green, byte Blue)
{
    public static Ink Black { get; } = new(0, 0, 0);

    public static Ink White { get; } = new(255, 255, 255);

    /// <summary>Six hex digits, such as <c>1b4f72</c>.</summary>
    public static Ink Hex(string digits) => new(Channel(digits, 0), Channel(digits, 2), Channel(digits, 4));

    private static byte Channel(string digits, int at) =>
        byte.Parse(digits.AsSpan(at, 2), NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture);
}
