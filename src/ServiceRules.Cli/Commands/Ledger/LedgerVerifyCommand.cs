using System.CommandLine;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Rows;
using ServiceRules.Cli.Printing;
using ServiceRules.Cli.Setup;
using ServiceRules.Evidence.Log;
using ServiceRules.Storage;

namespace ServiceRules.Cli.Commands.Ledger;

/// <summary><c>ledger verify</c>: rebuilds the whole log and tells everything that is wrong with it.</summary>
internal static class LedgerVerifyCommand
{
    private const string Json = "json";
    private const int KeyMost = 64 * 1024;

    private static readonly Option<DirectoryInfo?> Export = new("--export")
    {
        Description = "Verify this exported folder, without any database.",
        HelpName = "DIR",
    };

    private static readonly Option<FileInfo?> LogKey = new("--log-key")
    {
        Description =
            "The log's key as its organisation gave it (PEM, or the line of `ledger key --note`). Default: the key beside the log.",
        HelpName = "FILE",
    };

    private static readonly Option<FileInfo[]> WitnessKeys = new("--witness-key")
    {
        Description =
            "A witness's key (`witness.vkey`): a checkpoint outside must bear its cosignature. May be given more than once.",
        HelpName = "FILE",
    };

    public static Command Of(Session session)
    {
        var format = new Option<string>("--format")
        {
            Description = "text, or json: one line.",
            DefaultValueFactory = _ => "text",
        };
        format.AcceptOnlyFromAmong("text", Json);
        var command = new Command(
            "verify",
            "Rebuilds the log from its entries and contents and holds it against every checkpoint: 0 sound, 1 not, 2 unreadable."
        )
        {
            LedgerPlace.Option,
            Export,
            LedgerPlace.Checkpoints,
            LedgerPlace.AcceptMissing,
            LogKey,
            WitnessKeys,
            format,
        };
        command.SetAction(parsed =>
        {
            var (verified, key) = Verify(parsed, session);
            // An export is the log alone, and what others were given speaks for it; a ledger has its checkpoints outside.
            var isSoFar =
                verified.IsUnspokenFor
                && parsed.GetValue(Export) is null
                && !parsed.GetValue(LedgerPlace.AcceptMissing);
            new LedgerVerifiedPrint(session, verified, key, isSoFar).Print(parsed.GetValue(format) == Json);
            return verified.Faults.IsEmpty && !isSoFar ? ExitCode.Good : ExitCode.NotGood;
        });
        return command;
    }

    private static (LedgerVerified, NoteKey) Verify(ParseResult parsed, Session session) =>
        (parsed.GetValue(Export), parsed.GetValue(LedgerPlace.Option)) switch
        {
            ({ } export, null) => OfExport(parsed, export.FullName),
            (null, not null) => OfLedger(parsed, session),
            _ => throw new InputException("name one log; accepted: --ledger DIR or --export DIR"),
        };

    private static (LedgerVerified, NoteKey) OfLedger(ParseResult parsed, Session session)
    {
        var shelf = LedgerPlace.ShelfOf(parsed);
        using var folder = LedgerPlace.ToRead(parsed, session);
        var given = Pinned(parsed, folder.Signer.Key.Name);
        var key = given ?? folder.Signer.Key;
        var outside = shelf.All().ToList();
        try
        {
            var damage = folder.Store.Check();
            return (
                folder.Store.Read(
                    (log, rows) =>
                        Verifying(parsed, log, (rows, folder.Beside), key, given).Verify(outside, damage)
                ),
                key
            );
        }
        catch (LedgerStoreException failure) when (failure.Trouble is StoreTrouble.Damaged)
        {
            throw new InputException($"the ledger cannot be read to its end: {failure.Message}");
        }
    }

    private static (LedgerVerified, NoteKey) OfExport(ParseResult parsed, string path)
    {
        try
        {
            var exported = ExportedLedger.Open(path);
            var own = exported.Key();
            var given = Pinned(parsed, own.Name);
            var key = given ?? own;
            List<ShelvedCheckpoint> outside = parsed.GetValue(LedgerPlace.Checkpoints) is { } folder
                ? [.. new CheckpointFolder(folder.FullName).All()]
                : [];
            var verified = Verifying(parsed, exported, null, key, given).Verify(outside, []);
            return (verified with { Faults = [.. verified.Faults, .. exported.Repetitions()] }, key);
        }
        catch (Exception failure)
            when (failure is UnauthorizedAccessException or IOException and not LedgerStoreException)
        {
            throw new InputException($"`{path}` is no exported log that can be read: {failure.Message}");
        }
    }

    private static VerifyLedger Verifying(
        ParseResult parsed,
        ILedgerReading log,
        (IRowReading Rows, BesideLog Beside)? tables,
        NoteKey key,
        NoteKey? given
    ) =>
        new(log, key)
        {
            Rows = tables?.Rows,
            Beside = tables?.Beside,
            IsKeyGiven = given is not null,
            Witnesses = [.. (parsed.GetValue(WitnessKeys) ?? []).Select(WitnessKey)],
        };

    private static NoteKey WitnessKey(FileInfo file) =>
        NoteKey.TryParse(Text(file).Trim(), out var key, out var fault)
            ? key
            : throw new InputException($"`{file}` holds no key of a witness: {fault}");

    private static string Text(FileInfo file) =>
        System.Text.Encoding.UTF8.GetString(InputFile.ReadUpTo(file.FullName, KeyMost));

    private static NoteKey? Pinned(ParseResult parsed, string origin)
    {
        if (parsed.GetValue(LogKey) is not { } file)
        {
            return null;
        }

        return NoteKey.TryRead(origin, Text(file), out var key, out var fault)
            ? key
            : throw new InputException($"`{file}` holds no key of a log: {fault}");
    }
}
