using System.Globalization;
using ServiceRules.Application.Waiving;
using ServiceRules.Domain.Site;

namespace ServiceRules.Host.Waiving;

/// <summary>A waiver that counts, or did, at a site.</summary>
/// <param name="Id">What it is called; left out: it stands in the registers of the site, and is changed there.</param>
/// <param name="Standing">Whether it counts.</param>
/// <param name="Rule">The rule that it loosens; left out, with the rest of what it says, where it was erased.</param>
/// <param name="Unit">On which unit; left out: on all.</param>
/// <param name="By">Who loosens it: it lets out no job in which they had hands.</param>
/// <param name="Reason">Why.</param>
/// <param name="From">The first day of jobs that it is about.</param>
/// <param name="Until">The last day.</param>
/// <param name="Since">When it was entered.</param>
/// <param name="Entry">Its entry of the log.</param>
/// <param name="WithdrawnAt">When it was withdrawn.</param>
/// <param name="WithdrawnBy">The entry of the act that withdrew it, which says by whom and why.</param>
internal sealed record ToldWaiver(
    string? Id,
    WaiverStanding Standing,
    string? Rule,
    string? Unit,
    string? By,
    string? Reason,
    DateOnly? From,
    DateOnly? Until,
    DateTimeOffset? Since,
    long? Entry,
    DateTimeOffset? WithdrawnAt,
    long? WithdrawnBy
)
{
    private const string IdStart = "W-";

    public static ToldWaiver Of(Waiver registered) => Told(registered, WaiverStanding.Counts);

    public static ToldWaiver Of(KeptWaiver kept)
    {
        var said = SiteWaivers.Read(kept);
        return Told(
            said,
            said is null && !kept.IsLost ? WaiverStanding.Erased
                : kept.WithdrawnAt is null ? WaiverStanding.Counts
                : WaiverStanding.Withdrawn
        ) with
        {
            Id = string.Create(CultureInfo.InvariantCulture, $"{IdStart}{kept.Number}"),
            Since = kept.At,
            Entry = kept.Entry,
            WithdrawnAt = kept.WithdrawnAt,
            WithdrawnBy = kept.WithdrawnBy,
        };
    }

    /// <summary>The number behind what one is called; null where nothing is called so.</summary>
    public static long? NumberOf(string id) =>
        id.StartsWith(IdStart, StringComparison.Ordinal)
        && long.TryParse(
            id.AsSpan(IdStart.Length),
            NumberStyles.None,
            CultureInfo.InvariantCulture,
            out var number
        )
            ? number
            : null;

    private static ToldWaiver Told(Waiver? said, WaiverStanding standing) =>
        new(
            null,
            standing,
            said?.Rule,
            said?.Unit,
            said?.By.Text,
            said?.Reason,
            said?.From,
            said?.Until,
            null,
            null,
            null,
            null
        );
}
