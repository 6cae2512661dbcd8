using System.Collections.Immutable;
using System.CommandLine;
using System.Diagnostics.CodeAnalysis;
using ServiceRules.Application.Ledger;
using ServiceRules.Storage;

namespace ServiceRules.Cli.Setup;

/// <summary>A ledger that was held against its checkpoints, for the length of one command.</summary>
internal sealed class LedgerInUse : IDisposable
{
    private const int ToldMost = 5;

    private readonly LedgerFolder folder;

    private LedgerInUse(LedgerFolder folder, OpenLedger ledger) => (this.folder, Ledger) = (folder, ledger);

    public OpenLedger Ledger { get; }

    /// <summary>The names of the sites of an installation of several; empty: it is of one.</summary>
    public ImmutableArray<string> Sites => folder.Accounts.Sites();

    /// <summary>Whether the command answers for it that what an erasure removed is filed again.</summary>
    public bool BringsBack { get; private set; }

    /// <summary>Opens a ledger that is there.</summary>
    /// <exception cref="InputException">There is none, or it is not the one its checkpoints speak of.</exception>
    [SuppressMessage("Reliability", "CA2000", Justification = "The folder passes to the object given back.")]
    public static LedgerInUse Existing(ParseResult parsed, Session session) =>
        Held(
            LedgerPlace.ShelfOf(parsed),
            LedgerPlace.Existing(parsed),
            LedgerPlace.FolderOf(parsed),
            session,
            parsed.GetValue(LedgerPlace.AcceptMissing)
        );

    /// <summary>Opens a ledger that is there for reading alone, so that it may lie where nothing can be written.</summary>
    /// <exception cref="InputException">There is none, or it is not the one its checkpoints speak of.</exception>
    [SuppressMessage("Reliability", "CA2000", Justification = "The folder passes to the object given back.")]
    public static LedgerInUse ToRead(ParseResult parsed, Session session) =>
        Held(
            LedgerPlace.ShelfOf(parsed),
            LedgerPlace.ToRead(parsed, session),
            LedgerPlace.FolderOf(parsed),
            session,
            parsed.GetValue(LedgerPlace.AcceptMissing)
        );

    /// <summary>Opens a ledger, begun where there is none.</summary>
    /// <exception cref="InputException">It is not the one its checkpoints speak of.</exception>
    public static LedgerInUse OrBegun(ParseResult parsed, Session session)
    {
        var inUse = OrBegun(
            LedgerPlace.FolderOf(parsed),
            LedgerPlace.ShelfOf(parsed),
            session,
            parsed.GetValue(LedgerPlace.AcceptMissing)
        );
        inUse.BringsBack = parsed.GetValue(LedgerPlace.BringBack);
        return inUse;
    }

    /// <summary>Opens the ledger in a folder, begun where there is none.</summary>
    /// <exception cref="InputException">It is not the one its checkpoints speak of.</exception>
    [SuppressMessage("Reliability", "CA2000", Justification = "The folder passes to the object given back.")]
    public static LedgerInUse OrBegun(
        string place,
        CheckpointFolder shelf,
        Session session,
        bool acceptsMissing = false
    )
    {
        CheckNotOfAnother(place, shelf);
        return Held(shelf, LedgerPlace.Open(place), place, session, acceptsMissing);
    }

    public void Dispose() => folder.Dispose();

    // Before anything is made: a ledger begun over the checkpoints of another could never be opened.
    private static void CheckNotOfAnother(string place, CheckpointFolder shelf)
    {
        if (LedgerFolder.IsBegun(place))
        {
            return;
        }

        var kept = shelf.All().Where(one => !one.IsOfOthers).ToList();
        // Whoever begins it at this moment has made the database before the first checkpoint.
        if (kept.Count > 0 && !LedgerFolder.IsBegun(place))
        {
            throw new InputException(
                $"there is no ledger in `{place}`, but `{shelf.Place}` keeps checkpoints of one ({kept.Count}, the first says "
                    + $"`{kept[0].Note.Split('\n')[0]}`); nothing was begun; accepted: that ledger put back, or another folder for "
                    + "--checkpoints"
            );
        }
    }

    private static LedgerInUse Held(
        CheckpointFolder shelf,
        LedgerFolder folder,
        string place,
        Session session,
        bool acceptsMissing
    )
    {
        try
        {
            switch (
                OpenLedger.Open(
                    folder.Store,
                    shelf,
                    folder.Signer,
                    session.Clock,
                    acceptsMissing,
                    isToRead: folder.IsOfCopy
                )
            )
            {
                case LedgerOpening.Opened opened:
                    Tell(folder, shelf, opened, place, session);
                    return new LedgerInUse(folder, opened.Ledger);
                case LedgerOpening.Refused refused
                    when refused.Faults.Any(fault => fault.Code == LedgerFaultCode.CheckpointMissing):
                    throw new InputException(
                        $"{refused.Faults[0]}; accepted: --checkpoints and the folder where they are, or --accept-missing-checkpoints"
                    );
                case LedgerOpening.Refused refused:
                    throw new InputException([
                        $"the ledger in `{place}` is not the one that its checkpoints speak of; nothing was done",
                        .. Some(refused.Faults.Select(fault => $"  {fault}"), "  "),
                        "`servicerules ledger verify` tells everything that is wrong with it.",
                    ]);
                default:
                    throw new InvalidOperationException("an unknown outcome of opening");
            }
        }
        catch
        {
            folder.Dispose();
            throw;
        }
    }

    private static void Tell(
        LedgerFolder folder,
        CheckpointFolder shelf,
        LedgerOpening.Opened opened,
        string place,
        Session session
    )
    {
        if (folder.IsNew)
        {
            session.Error.WriteLine(
                $"A ledger was begun in `{place}`, its log is `{folder.Signer.Key.Name}`, key {folder.Signer.Key.IdText}. "
                    + $"Keep the folder private and backed up; checkpoints go to `{shelf.Place}`, which is best kept on another disk."
            );
        }

        foreach (var remark in Some(opened.Remarks, ""))
        {
            session.Error.WriteLine(remark);
        }
    }

    // A folder of checkpoints of another log would fill the screen; `ledger verify` tells them all.
    private static List<string> Some(IEnumerable<string> told, string indent)
    {
        var all = told.ToList();
        return all.Count <= ToldMost + 1
            ? all
            : [.. all.Take(ToldMost), $"{indent}and {all.Count - ToldMost} more of the kind"];
    }
}
