using System.Globalization;
using ServiceRules.Host.Pages.Filed;

namespace ServiceRules.Host.Waiving;

/// <summary>A waiver as a page tells it.</summary>
/// <param name="Id">What it is called; null: it stands in the registers of the site.</param>
/// <param name="Site">The site.</param>
/// <param name="Standing">Whether it counts, in a word or two.</param>
/// <param name="About">Which rule it loosens, on what and when.</param>
/// <param name="Why">By whom, and why.</param>
/// <param name="Since">When it was entered, and its entry.</param>
/// <param name="Withdrawn">When it was withdrawn, and by which entry.</param>
public sealed record ShownWaiver(
    string? Id,
    string Site,
    string Standing,
    string? About,
    string? Why,
    string? Since,
    string? Withdrawn
)
{
    /// <summary>Its entry of the log.</summary>
    public long? Entry { get; init; }

    /// <summary>The entry that withdrew it.</summary>
    public long? WithdrawnBy { get; init; }

    /// <summary>Whether it can be withdrawn.</summary>
    public bool IsOpen { get; init; }

    internal static ShownWaiver Of(ToldWaiver told, string site, Func<string, string?> titleOf) =>
        new(
            told.Id,
            site,
            told.Standing switch
            {
                WaiverStanding.Counts => "counts",
                WaiverStanding.Withdrawn => "is withdrawn",
                _ => "was erased, and counts no more",
            },
            told.Rule is { } rule
                ? $"{rule}{(titleOf(rule) is { } title ? $" ({title})" : "")}, on {told.Unit ?? "all units"}, {Day(told.From)} until {Day(told.Until)}"
                : null,
            told.By is { } by ? $"By {by}: {told.Reason}" : null,
            Placed(told.Since, told.Entry),
            Placed(told.WithdrawnAt, told.WithdrawnBy)
        )
        {
            Entry = told.Entry,
            WithdrawnBy = told.WithdrawnBy,
            IsOpen = told.Id is not null && told.WithdrawnAt is null,
        };

    private static string? Placed(DateTimeOffset? at, long? entry) =>
        at is { } time
            ? string.Create(
                CultureInfo.InvariantCulture,
                $"{ShownComment.Time(time)}{(entry is { } place ? $" (entry {place})" : "")}"
            )
            : null;

    private static string? Day(DateOnly? day) => day?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
}
