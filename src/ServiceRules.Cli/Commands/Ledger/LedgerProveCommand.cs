using System.CommandLine;
using ServiceRules.Application.Ledger;
using ServiceRules.Cli.Setup;
using ServiceRules.Formats.Ledger;

namespace ServiceRules.Cli.Commands.Ledger;

/// <summary><c>ledger prove</c>: the proof that an entry is in the log, to be checked without it.</summary>
internal static class LedgerProveCommand
{
    private static readonly Argument<long?> Index = new("INDEX")
    {
        Description = "Place of the entry in the log, from 0.",
        Arity = ArgumentArity.ZeroOrOne,
    };

    private static readonly Option<string?> Record = new("--record")
    {
        Description = "The newest version of this record.",
        HelpName = "ID",
    };

    private static readonly Option<FileInfo?> Output = new("--output", "-o")
    {
        Description = "Write the proof here. Default: standard output.",
        HelpName = "FILE",
    };

    private static readonly Option<FileInfo?> Entry = new("--entry-out")
    {
        Description = "Also write the entry itself, byte for byte as it is in the log.",
        HelpName = "FILE",
    };

    public static Command Of(Session session)
    {
        var command = new Command(
            "prove",
            "Proves that an entry stands in the log, as a c2sp.org/tlog-proof@v1 text."
        )
        {
            Index,
            Record,
            Output,
            Entry,
            LedgerPlace.Option,
            LedgerPlace.Checkpoints,
            LedgerPlace.AcceptMissing,
        };
        command.SetAction(parsed => Run(parsed, session));
        return command;
    }

    private static int Run(ParseResult parsed, Session session)
    {
        LogTextPlace.Check(parsed.GetValue(Output));
        LogTextPlace.Check(parsed.GetValue(Entry));
        if (
            parsed.GetValue(Output) is { } proofFile
            && parsed.GetValue(Entry) is { } entryFile
            && RealPath.Of(proofFile.FullName) == RealPath.Of(entryFile.FullName)
        )
        {
            throw new InputException(
                $"--entry-out: `{entryFile}` is where the proof is written; accepted: another file for the entry"
            );
        }

        using var ledger = LedgerInUse.ToRead(parsed, session);
        var index = IndexOf(parsed, ledger.Ledger);
        var proof = ledger.Ledger.Prove(index);
        if (parsed.GetValue(Entry) is { } entry)
        {
            InputFile.Write(entry.FullName, ledger.Ledger.Log.Entry(index)!.Bytes.ToArray());
        }

        if (parsed.GetValue(Output) is { } output)
        {
            InputFile.Write(output.FullName, System.Text.Encoding.UTF8.GetBytes(proof));
            session.Tell($"{output}: proof of entry {index}, log size {ledger.Ledger.Head!.Size}");
        }
        else
        {
            session.Output.Write(proof);
        }

        return ExitCode.Good;
    }

    private static long IndexOf(ParseResult parsed, OpenLedger ledger)
    {
        var size = ledger.Head?.Size ?? 0;
        switch (parsed.GetValue(Index), parsed.GetValue(Record))
        {
            case ({ } index, null) when index >= 0 && index < size:
                return index;
            case ({ } index, null):
                throw new InputException(
                    size == 0
                        ? $"there is no entry {index}: the log is empty"
                        : $"there is no entry {index}; accepted: 0 to {size - 1}"
                );
            case (null, { } id):
                return new TellSubject(ledger.Log)
                        .Tell(id)
                        .LastOrDefault(version =>
                            version.Entry.Entry.Kind is EntryKind.Record or EntryKind.Amendment
                        )
                        ?.Entry.Index
                    ?? throw new InputException($"no record `{id}` is filed here");
            default:
                throw new InputException("name one entry; accepted: its place, or --record ID");
        }
    }
}
