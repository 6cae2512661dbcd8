using System.Collections.Immutable;
using System.CommandLine;
using System.Globalization;
using System.Text;
using ServiceRules.Application.Witnessing;
using ServiceRules.Cli.Setup;
using ServiceRules.Evidence.Log;

namespace ServiceRules.Cli.Commands;

/// <summary><c>witness add|show</c>: stands beside a log that somebody else keeps, and remembers what it said.</summary>
internal static class WitnessCommand
{
    private const int KeyBytesMost = 64 * 1024;

    private static readonly Option<DirectoryInfo> Store = new("--store")
    {
        Description = "Private folder of the witness: its key and every checkpoint it cosigned.",
        HelpName = "DIR",
        Required = true,
    };

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

    private static readonly Option<string?> Log = new("--log")
    {
        Description = "Write the checkpoint of this log that was cosigned last, as it is stored.",
        HelpName = "NAME",
    };

    private static readonly Option<bool> Pem = new("--pem")
    {
        Description = "Write the witness's public key in PEM, for other tools.",
    };

    public static Command Of(Session session)
    {
        var add = new Command(
            "add",
            "Stores and cosigns a checkpoint that continues the last one: 0 cosigned, 1 refused, 2 unusable input."
        )
        {
            CheckpointFile,
            Store,
            Proof,
            LogKey,
            Name,
            Out,
        };
        add.SetAction(parsed => Told(() => Add(parsed, session)));
        var show = new Command(
            "show",
            "Tells the witness's public key and what it cosigned last of each log."
        )
        {
            Store,
            Log,
            Pem,
        };
        show.SetAction(parsed => Told(() => Show(parsed, session)));
        return new Command(
            "witness",
            "Stands beside a log kept by somebody else: cosigns its checkpoints, never goes back, never signs two histories."
        )
        {
            add,
            show,
        };
    }

    private static int Add(ParseResult parsed, Session session)
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
        using var folder = WitnessFolder.Open(parsed.GetRequiredValue(Store).FullName, parsed.GetValue(Name));
        if (folder.IsNew)
        {
            session.Error.WriteLine(
                $"A witness was made; its public key, for everyone to have, is\n{folder.Key}"
            );
        }

        switch (folder.Add(checkpoint, growth, key, session.Clock.GetUtcNow()))
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

    private static int Show(ParseResult parsed, Session session)
    {
        var path = parsed.GetRequiredValue(Store).FullName;
        if (!WitnessFolder.Exists(path))
        {
            throw new InputException(
                $"there is no witness in `{path}`; `servicerules witness add` makes one"
            );
        }

        using var folder = WitnessFolder.Open(path, null);
        if (parsed.GetValue(Pem))
        {
            session.Output.Write(folder.Key.ToPem());
            return ExitCode.Good;
        }

        var logs = folder.Logs();
        if (parsed.GetValue(Log) is { } name)
        {
            session.Output.Write(
                logs.FirstOrDefault(log => log.Origin == name)?.Latest?.ToString()
                    ?? throw new InputException(
                        $"no checkpoint of a log `{name}` is stored here; accepted: "
                            + (
                                logs.Count == 0
                                    ? "none yet"
                                    : string.Join(", ", logs.Select(log => log.Origin))
                            )
                    )
            );
            return ExitCode.Good;
        }

        session.Output.WriteLine($"witness {folder.Key}");
        foreach (var log in logs.Where(log => log.Latest is not null))
        {
            var head = log.Latest!.Head;
            session.Output.WriteLine($"\nlog       {log.Origin}");
            session.Output.WriteLine($"key id    {string.Join(", ", log.Keys.Select(key => key.IdText))}");
            session.Output.WriteLine($"size      {Number(head.Size)}");
            session.Output.WriteLine($"root      {head.Root}");
            session.Output.WriteLine(
                $"cosigned  {log.CosignedAt?.UtcDateTime.ToString("yyyy-MM-dd HH:mm:ss'Z'", CultureInfo.InvariantCulture)}"
            );
            session.Output.WriteLine($"stored    {Number(log.Count)} checkpoints");
        }

        return ExitCode.Good;
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
        var isRead = text.StartsWith("-----BEGIN", StringComparison.Ordinal)
            ? NoteKey.TryFromPem(origin, text, out var key, out var fault)
            : NoteKey.TryParse(text.TrimEnd('\r', '\n'), out key, out fault);
        return isRead ? key : throw Unusable(file.FullName, [fault!]);
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

    private static int Told(Func<int> run)
    {
        try
        {
            return run();
        }
        catch (WitnessFolderException unusable)
        {
            throw new InputException(unusable.Message);
        }
    }

    private static InputException Unusable(string file, ImmutableArray<LogTextFault> faults) =>
        new(string.Join('\n', faults.Select(fault => $"{file}: {fault}")));

    private static string Number(long value) => value.ToString(CultureInfo.InvariantCulture);
}
