using System.Collections.Immutable;
using System.CommandLine;
using System.Globalization;
using System.Text;
using ServiceRules.Application.Witnessing;
using ServiceRules.Cli.Setup;
using ServiceRules.Evidence.Log;

namespace ServiceRules.Cli.Commands;

/// <summary><c>witness add CHECKPOINT</c>: cosigns a checkpoint that continues the last one.</summary>
internal static class WitnessAddCommand
{
    private const int KeyBytesMost = 64 * 1024;

    private static readonly Argument<FileInfo> CheckpointFile = new("CHECKPOINT")
    {
        Description = "The checkpoint that the log signed.",
    };

    private static readonly Option<FileInfo?> Proof = new("--proof")
    {
        Description =
            "Proof that the log only grew since the size cosigned last: a line `old SIZE`, then one hash a line.",
        HelpName = "FILE",
    };

    private static readonly Option<FileInfo?> LogKey = new("--log-key")
    {
        Description =
            "The log's public key, as a verifier key or in PEM. Needed for the first checkpoint of a log; got from its keeper by another way than the checkpoint.",
        HelpName = "FILE",
    };

    private static readonly Option<string?> Name = new("--name")
    {
        Description = "Name of a witness that is made on first use, such as witness.example/w1.",
        HelpName = "NAME",
    };

    private static readonly Option<FileInfo?> Out = new("--out")
    {
        Description = "File for the cosigned checkpoint. Default: standard output.",
        HelpName = "FILE",
    };

    public static Command Of(Session session)
    {
        var add = new Command(
            "add",
            "Stores and cosigns a checkpoint that continues the last one: 0 cosigned, 1 refused, 2 unusable input."
        )
        {
            CheckpointFile,
            WitnessCommand.Store,
            Proof,
            LogKey,
            Name,
            Out,
        };
        add.SetAction(parsed => WitnessCommand.Told(() => Run(parsed, session)));
        return add;
    }

    private static int Run(ParseResult parsed, Session session)
    {
        LogTextPlace.Check(parsed.GetValue(Out));
        var file = parsed.GetRequiredValue(CheckpointFile).FullName;
        var bytes = InputFile.ReadUpTo(file, SignedNote.BytesMost);
        if (!SignedCheckpoint.TryParse(bytes, out var checkpoint, out var faults))
        {
            throw Unusable(file, faults);
        }

        var growth = GrowthOf(parsed);
        var key = KeyOf(parsed, checkpoint.Head.Origin);
        var store = parsed.GetRequiredValue(WitnessCommand.Store).FullName;
        var at = session.Clock.GetUtcNow();
        if (
            !WitnessFolder.Exists(store)
            && WitnessFolder.RefusalOfFirst(checkpoint, growth, key, at) is { } refusal
        )
        {
            return Tell(refusal, parsed, session);
        }

        using var folder = WitnessFolder.Open(store, parsed.GetValue(Name));
        if (folder.IsNew)
        {
            session.Error.WriteLine("A witness was made; its public key, for everyone to have, is");
            session.Error.WriteLine(folder.Key.ToString());
        }

        return Tell(folder.Add(checkpoint, growth, key, at), parsed, session);
    }

    private static int Tell(WitnessOutcome outcome, ParseResult parsed, Session session)
    {
        switch (outcome)
        {
            case WitnessOutcome.Cosigned(var cosigned, var earlier):
                Write(parsed, session, cosigned);
                session.Error.WriteLine(
                    $"cosigned {cosigned.Head.Origin} at size {Number(cosigned.Head.Size)}"
                        + (
                            earlier is null
                                ? ", the first of this log"
                                : $", size {Number(earlier.Size)} before"
                        )
                );
                return ExitCode.Good;
            case WitnessOutcome.Refused(var refusal, var told):
                session.Error.WriteLine($"refused ({Number((int)refusal)}): {told}");
                return ExitCode.NotGood;
            case WitnessOutcome.Unable(var why):
                throw new InputException(why);
            default:
                throw new InvalidOperationException("an unknown outcome of a witness");
        }
    }

    private static GrowthProof? GrowthOf(ParseResult parsed)
    {
        if (parsed.GetValue(Proof) is not { } file)
        {
            return null;
        }

        return GrowthProof.TryParse(
            InputFile.ReadUpTo(file.FullName, SignedNote.BytesMost),
            out var growth,
            out var faults
        )
            ? growth
            : throw Unusable(file.FullName, faults);
    }

    private static NoteKey? KeyOf(ParseResult parsed, string origin)
    {
        if (parsed.GetValue(LogKey) is not { } file)
        {
            return null;
        }

        var text = Encoding.UTF8.GetString(InputFile.ReadUpTo(file.FullName, KeyBytesMost));
        return NoteKey.TryRead(origin, text, out var key, out var fault)
            ? key
            : throw Unusable(file.FullName, [fault]);
    }

    private static void Write(ParseResult parsed, Session session, SignedCheckpoint checkpoint)
    {
        if (parsed.GetValue(Out) is { } file)
        {
            InputFile.Write(file.FullName, Encoding.UTF8.GetBytes(checkpoint.ToString()));
        }
        else
        {
            session.Output.Write(checkpoint.ToString());
        }
    }

    private static InputException Unusable(string file, ImmutableArray<LogTextFault> faults) =>
        new([.. faults.Select(fault => $"{file}: {fault}")]);

    private static string Number(long value) => value.ToString(CultureInfo.InvariantCulture);
}
