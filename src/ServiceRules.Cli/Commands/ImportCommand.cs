using System.CommandLine;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Importing;
using ServiceRules.Application.Library;
using ServiceRules.Cli.Printing;
using ServiceRules.Cli.Setup;
using ServiceRules.Host;
using ServiceRules.Host.Importing;
using ServiceRules.Host.Tables;

namespace ServiceRules.Cli.Commands;

/// <summary><c>import FILE</c>: the records of a table, filed the way everything is filed.</summary>
internal static class ImportCommand
{
    private static readonly Argument<FileInfo> File = new("FILE")
    {
        Description = "A table: CSV in UTF-8, or a workbook (XLSX).",
    };

    private static readonly Option<FileInfo?> Mapping = GivenMapping.Option(
        "Which column goes to which place of a record."
    );

    private static readonly Option<bool> DryRun = new("--dry-run")
    {
        Description = "Read and judge everything, and file nothing.",
    };

    private static readonly Option<DirectoryInfo?> Data = new("--data")
    {
        Description =
            "Private folder of the service whose store it goes to, made where there is none. Default: servicerules/service in the "
            + "user's data folder.",
        HelpName = "DIR",
    };

    public static Command Of(Session session)
    {
        var command = new Command(
            "import",
            "Files the records of a table: 0 every record stands, 1 some were refused, 2 nothing could be used."
        )
        {
            File,
            Mapping,
            DryRun,
            Data,
            GivenPerson.By,
            RulesInForce.Option,
            RulesInForce.Site,
        };
        command.SetAction(parsed => Run(parsed, session));
        return command;
    }

    private static int Run(ParseResult parsed, Session session)
    {
        var file = parsed.GetRequiredValue(File);
        var mapping = GivenMapping.Read(
            parsed.GetValue(Mapping)
                ?? throw new InputException(
                    $"it is not said which column goes where; accepted: {Mapping.Name} and a mapping, as docs/import.md tells"
                )
        );
        var loaded = RulesInForce.SoundAt(parsed);
        var by = GivenPerson.Registered(parsed, loaded);
        var print = new ImportPrint(session, file.ToString());
        var bytes = InputFile.ReadUpTo(file.FullName, TableLimits.Bytes);
        var read = TableFile.Read(bytes, mapping.Table);
        if (read is TableOutcome.Refused refused)
        {
            return print.Unusable(refused.Problems);
        }

        var mapped = MappedTable.Of(mapping, ((TableOutcome.Read)read).Table);
        return !mapped.Faults.IsEmpty ? print.Unusable(mapped.Faults)
            : parsed.GetValue(DryRun) ? Try(mapped, RulesInForce.Judging(loaded), print, session)
            : FileAsync(parsed, loaded, mapped, by, print, session).GetAwaiter().GetResult();
    }

    private static int Try(MappedTable mapped, AssessRecord judging, ImportPrint print, Session session)
    {
        ProgressLine.Run(
            session.Progress,
            "Judging",
            mapped.Records,
            record => print.Tried(record, record.Problems.IsEmpty ? judging.Assess(record.Body) : null)
        );
        return print.TriedAll();
    }

    private static async Task<int> FileAsync(
        ParseResult parsed,
        LoadedRules loaded,
        MappedTable mapped,
        string? by,
        ImportPrint print,
        Session session
    )
    {
        try
        {
            await using var filing = FolderFiling.Open(
                parsed.GetValue(Data)?.FullName ?? ServeCommand.UsualFolder(isDemo: false),
                loaded,
                session.Clock
            );
            foreach (var remark in filing.Remarks)
            {
                await session.Error.WriteLineAsync(remark);
            }

            var importing = new ImportRecords(filing.SubmitAsync);
            var outcome = ProgressLine.Run(
                session.Progress,
                "Filing",
                mapped.Records.Length,
                done =>
                    importing
                        .FileAsync(
                            mapped,
                            by,
                            one =>
                            {
                                print.Filed(one);
                                done();
                            }
                        )
                        .GetAwaiter()
                        .GetResult()
            );
            return print.FiledAll(outcome, mapped.Records.Length);
        }
        catch (StartRefusedException refused)
        {
            throw new InputException(refused.Lines);
        }
    }
}
