using System.CommandLine;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Library;
using ServiceRules.Cli.Printing;
using ServiceRules.Cli.Setup;
using ServiceRules.Domain.Site;
using ServiceRules.Formats.Json;
using ServiceRules.Formats.Registers;

namespace ServiceRules.Cli.Commands.Ledger;

/// <summary><c>ledger add FILE...</c>: files records with their assessments, setting orders, waivers and rules.</summary>
internal static class LedgerAddCommand
{
    private const string Record = "record";
    private const string SettingOrder = "setting-order";
    private const string Waiver = "waiver";
    private const string Rules = "rules";

    private static readonly Argument<FileSystemInfo[]> Files = new("FILE")
    {
        Description = "Service records, or what --kind names. For rules: none, --rules names their folder.",
        Arity = ArgumentArity.ZeroOrMore,
    };

    private static readonly Option<string?> Amends = new("--amends")
    {
        Description = "The one file corrects what is filed under this identity. Needs --by and --reason.",
        HelpName = "ID",
    };

    public static Command Of(Session session)
    {
        var kind = new Option<string>("--kind")
        {
            Description =
                "record; setting-order; waiver: a waiver/1 document, or registers with waivers in them; rules: all rules of --rules come into force.",
            DefaultValueFactory = _ => Record,
        };
        kind.AcceptOnlyFromAmong(Record, SettingOrder, Waiver, Rules);
        var command = new Command(
            "add",
            "Files documents: 0 everything stands in the log, 1 something was refused, 2 unreadable input."
        )
        {
            Files,
            kind,
            Amends,
            GivenPerson.By,
            GivenPerson.Reason,
            LedgerPlace.Option,
            LedgerPlace.Checkpoints,
            LedgerPlace.AcceptMissing,
            RulesInForce.Option,
        };
        command.SetAction(parsed => Run(parsed, session, parsed.GetValue(kind)!));
        return command;
    }

    private static int Run(ParseResult parsed, Session session, string kind)
    {
        var files = parsed.GetRequiredValue(Files);
        CheckFiles(parsed, kind, files.Length);
        var correction = parsed.GetValue(Amends) is null
            ? null
            : GivenPerson.Correcting(parsed, "an amendment");
        using var ledger = kind == Rules ? null : LedgerInUse.OrBegun(parsed, session);
        Func<FileSystemInfo, int> file = kind switch
        {
            Record => RecordFiling(parsed, session, ledger!.Ledger, correction),
            SettingOrder => one => AddSettingOrder(one, parsed, session, ledger!.Ledger, correction),
            Waiver => one => AddWaivers(one, parsed, session, ledger!.Ledger, correction),
            _ => _ => throw new InvalidOperationException("rules are one folder"),
        };
        return kind == Rules ? AddRules(parsed, session) : files.Select(file).ToList().Max();
    }

    private static void CheckFiles(ParseResult parsed, string kind, int count)
    {
        if (kind == Rules ? count > 0 : count == 0)
        {
            throw new InputException(
                kind == Rules
                    ? "rules are filed as a whole; accepted: --rules and their folder, and no file"
                    : "no file is named; accepted: one or more"
            );
        }

        if (parsed.GetValue(Amends) is not null && (kind == Rules || count != 1))
        {
            throw new InputException("--amends corrects one document; accepted: exactly one file with it");
        }
    }

    private static Func<FileSystemInfo, int> RecordFiling(
        ParseResult parsed,
        Session session,
        OpenLedger ledger,
        Correction? correction
    )
    {
        var judging = RulesInForce.Judging(parsed);
        var filing = new FileRecord(ledger);
        var by = GivenPerson.Person(parsed);
        return file =>
        {
            if (!TryRead(file, session, out var bytes))
            {
                return ExitCode.Unusable;
            }

            switch (judging.Assess(bytes))
            {
                case AssessOutcome.Refused refused:
                    return Unreadable(file, session, refused.Problems);
                case AssessOutcome.Judged { Assessed: var assessed }:
                    var id = assessed.Record.Id.Text;
                    CheckAmended(parsed, id);
                    return FilingPrint.Write(
                        session,
                        file.ToString(),
                        id,
                        correction is null ? filing.File(assessed, by) : filing.Amend(assessed, correction)
                    );
                default:
                    throw new InvalidOperationException("an unknown outcome of judging");
            }
        };
    }

    private static int AddSettingOrder(
        FileSystemInfo file,
        ParseResult parsed,
        Session session,
        OpenLedger ledger,
        Correction? correction
    )
    {
        if (!TryRead(file, session, out var bytes))
        {
            return ExitCode.Unusable;
        }

        if (!SettingOrderFormat.Current.Read(bytes).TryGet(out var order, out var problems))
        {
            return Unreadable(file, session, problems);
        }

        CheckAmended(parsed, order.Id.Text);
        return FilingPrint.Write(
            session,
            file.ToString(),
            order.Id.Text,
            new FileSiteDocument(ledger).SettingOrder(bytes, correction)
        );
    }

    private static int AddWaivers(
        FileSystemInfo file,
        ParseResult parsed,
        Session session,
        OpenLedger ledger,
        Correction? correction
    )
    {
        if (!TryRead(file, session, out var bytes))
        {
            return ExitCode.Unusable;
        }

        IReadOnlyList<Waiver> waivers;
        if (WaiverFormat.Current.Read(bytes).TryGet(out var waiver, out var problems))
        {
            waivers = [waiver];
        }
        else if (SiteFormat.Registers.Read(bytes).TryGet(out var registers, out var others))
        {
            waivers = [.. registers.Waivers];
        }
        else
        {
            // Whichever of the two it was meant to be has fewer complaints about its head.
            return Unreadable(
                file,
                session,
                others.Told.Any(problem => problem.Code == ProblemCode.Format) ? problems : others
            );
        }

        return waivers
            .Select(one =>
            {
                var subject = FileSiteDocument.SubjectOf(one);
                CheckAmended(parsed, subject);
                return FilingPrint.Write(
                    session,
                    file.ToString(),
                    subject,
                    new FileSiteDocument(ledger).Waiver(one, correction)
                );
            })
            .DefaultIfEmpty(ExitCode.Good)
            .Max();
    }

    private static int AddRules(ParseResult parsed, Session session)
    {
        var by =
            GivenPerson.Person(parsed)
            ?? throw new InputException("rules come into force by somebody: --by PERSON is needed");
        LoadedRules loaded = RulesInForce.Sound(parsed);
        using var ledger = LedgerInUse.OrBegun(parsed, session);
        var outcome = new FileRules(ledger.Ledger).File(loaded.Book, by, parsed.GetValue(GivenPerson.Reason));
        return FilingPrint.Write(session, loaded.Folder, FileRules.Subject, outcome);
    }

    private static void CheckAmended(ParseResult parsed, string id)
    {
        if (parsed.GetValue(Amends) is { } amended && amended != id)
        {
            throw new InputException($"--amends: the file speaks of `{id}`; accepted: `{id}`");
        }
    }

    private static int Unreadable(FileSystemInfo file, Session session, ProblemReport problems)
    {
        ProblemPrint.Write(session.Error, file.ToString(), problems);
        return ExitCode.Unusable;
    }

    private static bool TryRead(FileSystemInfo file, Session session, out byte[] bytes)
    {
        try
        {
            bytes = InputFile.ReadUpTo(file.FullName, ReadLimits.Library.Bytes);
            return true;
        }
        catch (InputException unusable)
        {
            session.Error.WriteLine(unusable.Message);
            bytes = [];
            return false;
        }
    }
}
