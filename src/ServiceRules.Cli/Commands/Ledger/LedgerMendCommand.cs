using System.CommandLine;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Rows;
using ServiceRules.Cli.Printing;
using ServiceRules.Cli.Setup;
using ServiceRules.Storage;

namespace ServiceRules.Cli.Commands.Ledger;

/// <summary><c>ledger mend --from COPY</c>: contents that are lost, put back from a copy that has them.</summary>
internal static class LedgerMendCommand
{
    private const int ToldMost = 100;

    public static Command Of(Session session)
    {
        var from = new Option<DirectoryInfo>("--from")
        {
            Description = "A folder that `ledger backup` or `ledger export` wrote; it stays as it is.",
            HelpName = "COPY",
            Required = true,
        };
        var command = new Command(
            "mend",
            "Puts contents back that are lost or changed, by the digests that entries name, and makes the rows of them: 0 none is lost any more, 1 some are, 2 unreadable."
        )
        {
            from,
            LedgerPlace.Option,
            LedgerPlace.Checkpoints,
            LedgerPlace.AcceptMissing,
        };
        command.SetAction(parsed => Run(parsed, session, parsed.GetRequiredValue(from).FullName));
        return command;
    }

    private static int Run(ParseResult parsed, Session session, string copy)
    {
        var isBackup = LedgerBackup.IsIn(copy);
        if (!isBackup && !File.Exists(Path.Combine(copy, ExportFiles.Entries)))
        {
            throw new InputException(
                $"`{copy}` holds no copy; accepted: a folder that `servicerules ledger backup` or `servicerules ledger export` wrote to its end"
            );
        }

        using var ledger = LedgerInUse.Existing(parsed, session);
        var mended = isBackup ? FromBackup(ledger.Ledger, copy) : FromExport(ledger.Ledger, copy);
        Tell(session, mended);
        var rows = new RebuildRows(ledger.Ledger).Check();
        if (!rows.IsEmpty)
        {
            session.Output.WriteLine(
                "What lists and searches are made of is not what the log comes to; `servicerules ledger rows` tells where."
            );
        }

        return mended.StillLost.IsEmpty && rows.IsEmpty ? ExitCode.Good : ExitCode.NotGood;
    }

    private static ContentsMended FromBackup(OpenLedger ledger, string copy)
    {
        using var backup = Opened(copy);
        return new MendContents(ledger).Mend(backup.Log);
    }

    private static BackupReading Opened(string copy)
    {
        try
        {
            return LedgerCopies.Write(() => BackupReading.Open(copy));
        }
        catch (LedgerStoreException refused) when (refused.Trouble is StoreTrouble.Damaged)
        {
            throw new InputException(refused.Message);
        }
    }

    private static ContentsMended FromExport(OpenLedger ledger, string copy)
    {
        try
        {
            return new MendContents(ledger).Mend(ExportedLedger.Open(copy));
        }
        catch (Exception failure)
            when (failure is UnauthorizedAccessException or IOException and not LedgerStoreException)
        {
            throw new InputException($"`{copy}` cannot be read: {failure.Message}");
        }
    }

    private static void Tell(Session session, ContentsMended mended)
    {
        foreach (var one in mended.PutBack.Take(ToldMost))
        {
            session.Screen.TextLine($"  put back: {one}");
        }

        foreach (var fault in mended.StillLost.Take(ToldMost))
        {
            session.Screen.TextLine($"  FAULT  {fault.Code}: {fault}");
        }

        session.Output.WriteLine(
            $"{mended.PutBack.Length} contents were put back, {mended.StillLost.Length} are lost still."
        );
        if (mended.IsHeldBack)
        {
            session.Output.WriteLine(
                "Nothing else was put back: these say what was removed on purpose, and the copy may have it. A newer copy has them."
            );
        }
    }
}
