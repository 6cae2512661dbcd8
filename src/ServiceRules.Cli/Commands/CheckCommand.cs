using System.CommandLine;
using System.Text;
using ServiceRules.Application.Assessing;
using ServiceRules.Cli.Printing;
using ServiceRules.Cli.Setup;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Formats.Json;

namespace ServiceRules.Cli.Commands;

/// <summary><c>check FILE...</c>: judges service records and prints for a person at the bench.</summary>
internal static class CheckCommand
{
    private const string Json = "json";

    public static Command Of(Session session)
    {
        var files = new Argument<FileInfo[]>("FILE")
        {
            Description = "Service records.",
            Arity = ArgumentArity.OneOrMore,
        };
        var all = new Option<bool>("--all") { Description = "Show everything, also what is in." };
        var budget = new Option<bool>("--budget")
        {
            Description =
                "Of everything measured, show what its uncertainty is made of: contributions, u, degrees of freedom, k, U.",
        };
        var format = new Option<string>("--format")
        {
            Description = "text, or json: the assessment in canonical form, one line for each record.",
            DefaultValueFactory = _ => "text",
        };
        format.AcceptOnlyFromAmong("text", Json);
        var command = new Command(
            "check",
            "Judges service records: 0 every job may go out, 1 at least one hold or stop, 2 unreadable input."
        )
        {
            files,
            all,
            budget,
            format,
            RulesInForce.Option,
        };
        command.SetAction(parsed =>
        {
            var judging = RulesInForce.Judging(parsed);
            var programmeTold = new HashSet<string>(StringComparer.Ordinal);
            var read = parsed
                .GetRequiredValue(files)
                .Select(file => (file, Bytes: Read(file, session.Error)))
                .ToList();
            // One record cannot know where its locks and people were besides: those given with it tell.
            var together =
                read.Count == 1
                    ? judging
                    : judging.Beside(read.Select(one => one.Bytes).OfType<ReadOnlyMemory<byte>>());
            var seen = new Dictionary<string, List<(string File, ReadOnlyMemory<byte> Bytes)>>(
                StringComparer.Ordinal
            );
            var worst = read.Max(one =>
                one.Bytes is { } bytes
                    ? Check(
                        one.file,
                        bytes,
                        together,
                        session,
                        assessed =>
                        {
                            Note(seen, assessed, one.file);
                            Print(
                                one.file,
                                assessed,
                                together,
                                session,
                                (parsed.GetValue(all) ? BenchDetail.All : BenchDetail.None)
                                    | (parsed.GetValue(budget) ? BenchDetail.Budgets : BenchDetail.None),
                                parsed.GetValue(format) == Json,
                                programmeTold
                            );
                        }
                    )
                    : ExitCode.Unusable
            );
            return SameIdentity(seen, session) ? Math.Max(worst, ExitCode.NotGood) : worst;
        });
        return command;
    }

    private static int Check(
        FileInfo file,
        ReadOnlyMemory<byte> bytes,
        AssessRecord judging,
        Session session,
        Action<Assessed> print
    )
    {
        switch (judging.Assess(bytes))
        {
            case AssessOutcome.Refused refused:
                ProblemPrint.Write(session.Error, file.ToString(), refused.Problems);
                return ExitCode.Unusable;
            case AssessOutcome.Judged { Assessed: var assessed }:
                print(assessed);
                return assessed.Assessment.Job.Disposition == Disposition.Release
                    ? ExitCode.Good
                    : ExitCode.NotGood;
            default:
                throw new InvalidOperationException("an unknown outcome of judging");
        }
    }

    private static void Note(
        Dictionary<string, List<(string File, ReadOnlyMemory<byte> Bytes)>> seen,
        Assessed assessed,
        FileInfo file
    )
    {
        var id = assessed.Record.Id.Text;
        if (!seen.TryGetValue(id, out var files))
        {
            seen[id] = files = [];
        }

        files.Add((file.ToString(), assessed.Evidence.Record.Bytes));
    }

    /// <summary>Files of one record are not held against one another; with other content they contradict each other.</summary>
    private static bool SameIdentity(
        Dictionary<string, List<(string File, ReadOnlyMemory<byte> Bytes)>> seen,
        Session session
    )
    {
        var isContradicted = false;
        foreach (var (id, files) in seen.Where(one => one.Value.Count > 1))
        {
            var differ = files.Exists(one => !one.Bytes.Span.SequenceEqual(files[0].Bytes.Span));
            isContradicted |= differ;
            session.Error.WriteLine(
                SeenText.OneLine(
                    differ
                        ? $"`{id}` stands with other content in {string.Join(", ", files.Select(one => one.File))}: each was judged by itself and not against the other; which of them is true they do not tell"
                        : $"`{id}` stands in {string.Join(", ", files.Select(one => one.File))} with the same content: one record, told more than once"
                )
            );
        }

        return isContradicted;
    }

    /// <summary>One file that is not there keeps no other record from being judged.</summary>
    private static ReadOnlyMemory<byte>? Read(FileInfo file, TextWriter error)
    {
        try
        {
            return InputFile.ReadUpTo(file.FullName, ReadLimits.Record.Bytes);
        }
        catch (InputException unusable)
        {
            unusable.Tell(error);
            return null;
        }
    }

    private static void Print(
        FileInfo file,
        Assessed assessed,
        AssessRecord judging,
        Session session,
        BenchDetail detail,
        bool asJson,
        ISet<string> programmeTold
    )
    {
        if (asJson)
        {
            session.Output.WriteLine(Encoding.UTF8.GetString(assessed.Evidence.Assessment.Bytes.Span));
        }
        else
        {
            new BenchPrint(session.Screen, assessed, detail, programmeTold).Print();
            ContextBesidePrint.Write(session, file, assessed.Record, judging);
        }
    }
}
