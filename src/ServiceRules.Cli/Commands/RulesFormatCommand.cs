using System.CommandLine;
using System.Text;
using ServiceRules.Application.Authoring;
using ServiceRules.Cli.Printing;
using ServiceRules.Cli.Setup;
using ServiceRules.Formats.Json;
using ServiceRules.Reporting.Reports.Words;

namespace ServiceRules.Cli.Commands;

/// <summary><c>rules format</c>: what says the same is written the same.</summary>
internal static class RulesFormatCommand
{
    private static readonly Argument<string[]> Paths = new("PATH")
    {
        Description = "Files of a folder of rules, or folders. Default: the folder that --rules names.",
        Arity = ArgumentArity.ZeroOrMore,
    };

    private static readonly Option<bool> Check = new("--check")
    {
        Description =
            "Change nothing; list the files that are written otherwise, and exit with 1 when there are any.",
    };

    private static readonly Option<bool> Print = new("--print")
    {
        Description = "Change nothing; print the canonical form of the one file that is named.",
    };

    public static Command Of(Session session)
    {
        var command = new Command(
            "format",
            "Writes rules, cases, sheets and registers in their canonical form, which changes no meaning: 0 done (or nothing to do), 1 with --check some differ, 2 some cannot be read and stay as they are."
        )
        {
            Paths,
            Check,
            Print,
            RulesInForce.Option,
        };
        command.SetAction(parsed => Run(parsed, session));
        return command;
    }

    private static int Run(ParseResult parsed, Session session)
    {
        var files = Files(parsed);
        if (parsed.GetValue(Print))
        {
            return PrintOne(files, session);
        }

        var isCheck = parsed.GetValue(Check);
        var (differ, unreadable) = (0, 0);
        foreach (var path in files)
        {
            var form = FormOf(path);
            if (!form.Problems.IsEmpty)
            {
                unreadable++;
                ProblemPrint.Write(session.Error, path, form.Problems);
            }
            else if (!form.IsCanonical)
            {
                differ++;
                if (!isCheck)
                {
                    InputFile.Write(RealPath.Of(path), form.Canonical.ToArray());
                }

                session.Tell(isCheck ? $"not canonical: {path}" : $"written anew: {path}");
            }
        }

        session.Tell(Summary(files.Count, differ, unreadable, isCheck));
        return unreadable > 0 ? ExitCode.Unusable
            : isCheck && differ > 0 ? ExitCode.NotGood
            : ExitCode.Good;
    }

    private static int PrintOne(List<string> files, Session session)
    {
        if (files.Count != 1)
        {
            throw new InputException(
                $"--print prints one file, and here are {files.Count}; accepted: `rules format FILE --print`"
            );
        }

        var form = FormOf(files[0]);
        if (!form.Problems.IsEmpty)
        {
            ProblemPrint.Write(session.Error, files[0], form.Problems);
            return ExitCode.Unusable;
        }

        session.Output.Write(Encoding.UTF8.GetString(form.Canonical.Span));
        return ExitCode.Good;
    }

    private static CanonicalFile FormOf(string path) =>
        CanonicalRules.Of(path, InputFile.ReadUpTo(path, ReadLimits.Library.Bytes + 1));

    private static string Summary(int files, int differ, int unreadable, bool isCheck)
    {
        var counted = ReportWords.Counted(files, "file", "files");
        var done = isCheck ? $"{differ} would be written anew" : $"{differ} written anew";
        return $"{counted}: {done}, {files - differ - unreadable} canonical already"
            + (unreadable > 0 ? $", {unreadable} cannot be read and stay as they are" : "");
    }

    private static List<string> Files(ParseResult parsed)
    {
        var given = parsed.GetValue(Paths) is { Length: > 0 } paths ? paths : [RulesInForce.FolderOf(parsed)];
        List<string> files = [];
        foreach (var path in given)
        {
            if (!Directory.Exists(path))
            {
                files.Add(
                    CanonicalRules.IsSuch(path)
                        ? path
                        : throw new InputException(
                            $"`{path}` is no file of a folder of rules by its name; accepted: {CanonicalRules.Accepted}; fixtures and schemas stay as they are"
                        )
                );
                continue;
            }

            files.AddRange(CanonicalRules.FilesOf(path, out var problems));
            if (!problems.IsEmpty)
            {
                throw new InputException([.. problems]);
            }
        }

        return files.Count > 0
            ? files
            : throw new InputException(
                "there is no file of rules here; accepted: a folder of rules, or files of one"
            );
    }
}
