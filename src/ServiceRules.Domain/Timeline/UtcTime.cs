using System.Globalization;

namespace ServiceRules.Domain.Timeline;

/// <summary>Instants as they are told everywhere alike: day and time in UTC, to the second; fractions are dropped.</summary>
public static class UtcTime
{
    /// <summary>For people, such as <c>2026-03-02 06:45:10 UTC</c>.</summary>
    /// <param name="at">The instant, with any offset.</param>
    public static string Print(DateTimeOffset at) => Written(at, "yyyy-MM-dd HH:mm:ss 'UTC'");

    /// <summary>For programs (RFC 3339), such as <c>2026-03-02T06:45:10Z</c>.</summary>
    /// <param name="at">The instant, with any offset.</param>
    public static string Stamp(DateTimeOffset at) => Written(at, "yyyy-MM-dd'T'HH:mm:ss'Z'");

    private static string Written(DateTimeOffset at, string form) =>
        at.ToUniversalTime().ToString(form, CultureInfo.InvariantCulture);
}
