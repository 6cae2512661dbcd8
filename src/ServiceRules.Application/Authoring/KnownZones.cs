using System.Text.RegularExpressions;
using ServiceRules.Rules.Diagnostics;

namespace ServiceRules.Application.Authoring;

/// <summary>The zone data of this machine: which zones it has, and of which version it is.</summary>
public static partial class KnownZones
{
    private const string UsualFolder = "/usr/share/zoneinfo";

    // The first line of the file says it.
    private const int HeadMost = 64;

    /// <summary>A zone by its name in the zone data, such as <c>America/Chicago</c>; null: there is none of that name.</summary>
    public static TimeZoneInfo? Find(string name) =>
        // What begins with a dot or a slash would be looked for outside the zone data.
        Name().IsMatch(name) && TimeZoneInfo.TryFindSystemTimeZoneById(name, out var zone)
            ? zone
            : null;

    /// <summary>What is told of a name that there is none of.</summary>
    public static string NotThere(string name)
    {
        var known = TimeZoneInfo.GetSystemTimeZones().Select(zone => zone.Id).ToList();
        return known.Count <= 1
            ? $"--time-zone: the zone data of this machine has no zone `{name}`; accepted: zone data on this machine (the package tzdata on many systems), or another machine to make the folder on"
            : $"--time-zone: there is no time zone `{name}`; accepted: {(NearestName.Of(name, known) is { } near ? $"`{near}`, or another" : "a")} name of the zone data, such as `America/Chicago` or `Europe/London`";
    }

    /// <summary>The version of the zone data, such as <c>2025b</c>; null: the machine does not say.</summary>
    public static string? Version()
    {
        var folder = Environment.GetEnvironmentVariable("TZDIR") is { Length: > 0 } given
            ? given
            : UsualFolder;
        foreach (var file in new[] { "tzdata.zi", "+VERSION", "version" })
        {
            try
            {
                using var reader = new StreamReader(Path.Combine(folder, file));
                var head = new char[HeadMost];
                var count = reader.ReadBlock(head, 0, head.Length);
                if (Release().Match(new string(head, 0, count)) is { Success: true } found)
                {
                    return found.Value;
                }
            }
            catch (Exception none) when (none is IOException or UnauthorizedAccessException)
            {
                // The next may be there.
            }
        }

        return null;
    }

    [GeneratedRegex(@"\A[A-Za-z][A-Za-z0-9_+\-]*(/[A-Za-z0-9_+\-]+){0,3}\z")]
    private static partial Regex Name();

    [GeneratedRegex(@"\b20[0-9]{2}[a-z]{1,2}\b")]
    private static partial Regex Release();
}
