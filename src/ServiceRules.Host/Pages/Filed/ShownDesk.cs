using ServiceRules.Application.Ledger;
using ServiceRules.Host.Accounts;
using ServiceRules.Host.Apis;
using ServiceRules.Host.Filing;
using ServiceRules.Host.Pages.Forms;
using ServiceRules.Host.Sites;

namespace ServiceRules.Host.Pages.Filed;

/// <summary>What was said and held of a record, and what whoever asks may say and hold of it.</summary>
public sealed record ShownDesk
{
    /// <summary>What was said of it, the oldest first.</summary>
    public IReadOnlyList<ShownComment> Comments { get; init; } = [];

    /// <summary>The holds that it falls under; null: not for whoever asks to know.</summary>
    public IReadOnlyList<ShownHold>? Holds { get; init; }

    /// <summary>Whether whoever asks may say something of it.</summary>
    public bool MayComment { get; init; }

    /// <summary>Whether whoever asks may hold it, and lift a hold.</summary>
    public bool MayHold { get; init; }

    /// <summary>The token for its forms.</summary>
    public string Token { get; init; } = "";

    /// <summary>For whom the account stands; null: for nobody.</summary>
    public string? Person { get; init; }

    /// <summary>Who may answer for something otherwise.</summary>
    public IReadOnlyList<string> People { get; init; } = [];

    /// <summary>What was just done, in a sentence.</summary>
    public string? Done { get; init; }

    /// <summary>The entry of the log that it became.</summary>
    public long? DoneEntry { get; init; }

    /// <param name="log">The log.</param>
    /// <param name="answer">The record.</param>
    /// <param name="caller">Who asks.</param>
    /// <param name="site">The site of the record; null: it is none of those served here.</param>
    /// <param name="entry">The entry that was just made of it, as an address says.</param>
    internal static ShownDesk Of(
        ILedgerReading log,
        RecordAnswer answer,
        Caller caller,
        ServedSite? site,
        long? entry
    )
    {
        var holds =
            AccessTable.Opens("GET", KeepingApi.Holds, caller) && KeepingApi.OfEvery(caller) is null
                ? Application
                    .Keeping.HoldsOfLog.ReadByName(log)
                    .About(log, answer.Id)
                    .Select(hold => ShownHold.Of(log, hold, caller))
                    .ToList()
                : null;
        var comments = answer.Comments.Select(one => ShownComment.Of(log, one, caller)).ToList();
        return new()
        {
            Comments = comments,
            Holds = holds,
            MayComment = site is not null && AccessTable.Opens("POST", RecordActs.Comments, caller),
            MayHold =
                site is not null && holds is not null && AccessTable.Opens("POST", RecordActs.Holds, caller),
            Person = caller.Person,
            People = site is null ? [] : [.. WhoAndWhy.People(site.Registers)],
            Done = entry is { } place && !caller.IsLimited ? DoneAt(place, comments, holds ?? []) : null,
            DoneEntry = entry,
        };
    }

    private static string? DoneAt(
        long entry,
        IEnumerable<ShownComment> comments,
        IReadOnlyCollection<ShownHold> holds
    ) =>
        comments.Any(comment => comment.Entry == entry) ? "The comment stands."
        : holds.FirstOrDefault(hold => hold.Entry == entry) is { } held ? $"{held.Id} keeps this record."
        : holds.FirstOrDefault(hold => hold.LiftedBy == entry) is { } lifted ? $"{lifted.Id} is lifted."
        : null;
}
