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
            DefaultValueFactory = _ => FiledKind.Record,
        };
        kind.AcceptOnlyFromAmong(FiledKind.Record, FiledKind.SettingOrder, FiledKind.Waiver, FiledKind.Rules);
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
            LedgerPlace.BringBack,
            RulesInForce.Option,
        };
        command.SetAction(parsed => Run(parsed, session, parsed.GetValue(kind)!));
        return command;
    }

    private static int Run(ParseResult parsed, Session session, string kind)
    {
        var files = parsed.GetRequiredValue(Files);
        CheckFiles(parsed, kind, files.Length);
        CheckPerson(parsed, kind);
        _ = LedgerPlace.ShelfOf(parsed);
        using var ledger = new LedgerOnDemand(parsed, session);
        var isAmending = parsed.GetValue(Amends) is not null;
        var loaded =
            isAmending || kind is FiledKind.Record or FiledKind.Rules ? RulesInForce.Sound(parsed) : null;
        if (kind == FiledKind.Rules)
        {
            return AddRules(parsed, session, ledger, loaded!);
        }

        var correction = isAmending ? GivenPerson.Correcting(parsed, "an amendment", loaded!) : null;
        Func<FileSystemInfo, byte[], int> file = kind switch
        {
            FiledKind.Record => RecordFiling(parsed, session, ledger, loaded!, correction),
            FiledKind.SettingOrder => (one, bytes) =>
                AddSettingOrder(one, bytes, parsed, session, ledger, correction),
            _ => (one, bytes) => AddWaivers(one, bytes, parsed, session, ledger, correction),
        };
        return files
            .Select(one => TryRead(one, session, out var bytes) ? file(one, bytes) : ExitCode.Unusable)
            .ToList()
            .Max();
    }

    private static void CheckFiles(ParseResult parsed, string kind, int count)
    {
        if (kind == FiledKind.Rules ? count > 0 : count == 0)
        {
            throw new InputException(
                kind == FiledKind.Rules
                    ? "rules are filed as a whole; accepted: --rules and their folder, and no file"
                    : "no file is named; accepted: one or more"
            );
        }

        if (parsed.GetValue(Amends) is not null && (kind == FiledKind.Rules || count != 1))
        {
            throw new InputException("--amends corrects one document; accepted: exactly one file with it");
        }
    }

    // What would go nowhere is not taken: whoever gave it believes that it stands in the log.
    private static void CheckPerson(ParseResult parsed, string kind)
    {
        if (parsed.GetValue(Amends) is not null || kind == FiledKind.Rules)
        {
            return;
        }

        if (parsed.GetValue(GivenPerson.Reason) is not null)
        {
            throw new InputException(
                "--reason says why something is amended or comes into force; accepted: with --amends ID or --kind rules"
            );
        }

        if (kind != FiledKind.Record && parsed.GetValue(GivenPerson.By) is not null)
        {
            throw new InputException(
                $"--by: for a {kind} answers who decided it, as it says itself; accepted: --by with --amends ID, or without"
            );
        }
    }

    private static Func<FileSystemInfo, byte[], int> RecordFiling(
        ParseResult parsed,
        Session session,
        LedgerOnDemand ledger,
        LoadedRules loaded,
        Correction? correction
    )
    {
        var judging = RulesInForce.Judging(loaded);
        var by = GivenPerson.Registered(parsed, loaded);
        return (file, bytes) =>
        {
            switch (judging.Assess(bytes))
            {
                case AssessOutcome.Refused refused:
                    return Unreadable(file, bytes, FiledKind.Record, session, refused.Problems);
                case AssessOutcome.Judged { Assessed: var assessed }:
                    var id = assessed.Record.Id.Text;
                    CheckAmended(parsed, id);
                    var filing = new FileRecord(ledger.Ledger, ledger.BringsBack);
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
        byte[] bytes,
        ParseResult parsed,
        Session session,
        LedgerOnDemand ledger,
        Correction? correction
    )
    {
        if (!SettingOrderFormat.Current.Read(bytes).TryGet(out var order, out var problems))
        {
            return Unreadable(file, bytes, FiledKind.SettingOrder, session, problems);
        }

        CheckAmended(parsed, order.Id.Text);
        return FilingPrint.Write(
            session,
            file.ToString(),
            order.Id.Text,
            new FileSiteDocument(ledger.Ledger, ledger.BringsBack).SettingOrder(bytes, correction)
        );
    }

    private static int AddWaivers(
        FileSystemInfo file,
        byte[] bytes,
        ParseResult parsed,
        Session session,
        LedgerOnDemand ledger,
        Correction? correction
    )
    {
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
                bytes,
                FiledKind.Waiver,
                session,
                others.Told.Any(problem => problem.Code == ProblemCode.Format) ? problems : others
            );
        }

        if (waivers.Count == 0)
        {
            session.Error.WriteLine(
                $"`{file}` holds no waiver, so there is nothing to file; accepted: a waiver/1 document, or registers with waivers in them"
            );
            return ExitCode.Unusable;
        }

        return Amended(parsed, waivers)
            .Select(one =>
                FilingPrint.Write(
                    session,
                    file.ToString(),
                    FileSiteDocument.SubjectOf(one),
                    new FileSiteDocument(ledger.Ledger, ledger.BringsBack).Waiver(one, correction)
                )
            )
            .ToList()
            .Max();
    }

    // Registers hold them all, and an amendment is about one.
    private static IReadOnlyList<Waiver> Amended(ParseResult parsed, IReadOnlyList<Waiver> waivers)
    {
        if (parsed.GetValue(Amends) is not { } amended)
        {
            return waivers;
        }

        var meant = waivers.Where(one => FileSiteDocument.SubjectOf(one) == amended).ToList();
        if (meant.Count == 0)
        {
            CheckAmended(parsed, FileSiteDocument.SubjectOf(waivers[0]));
        }

        return meant;
    }

    private static int AddRules(
        ParseResult parsed,
        Session session,
        LedgerOnDemand ledger,
        LoadedRules loaded
    )
    {
        var by =
            GivenPerson.Registered(parsed, loaded)
            ?? throw new InputException("rules come into force by somebody: --by PERSON is needed");
        var outcome = new FileRules(ledger.Ledger, ledger.BringsBack).File(
            loaded.Book,
            by,
            parsed.GetValue(GivenPerson.Reason)
        );
        return FilingPrint.Write(session, loaded.Folder, FileRules.Subject, outcome);
    }

    private static void CheckAmended(ParseResult parsed, string id)
    {
        if (parsed.GetValue(Amends) is { } amended && amended != id)
        {
            throw new InputException(
                $"--amends: `{amended}` is to be corrected, and the file speaks of `{id}`; accepted: a file about `{amended}`, "
                    + $"or --amends {id}"
            );
        }
    }

    private static int Unreadable(
        FileSystemInfo file,
        byte[] bytes,
        string kind,
        Session session,
        ProblemReport problems
    )
    {
        ProblemPrint.Write(session.Error, file.ToString(), problems);
        if (
            problems.Told.Any(problem => problem.Code == ProblemCode.Format)
            && FiledKind.Said(bytes) is { } said
            && said != kind
        )
        {
            session.Error.WriteLine(
                $"{file}: it says that it is something else; accepted: it, with --kind {said}"
            );
        }

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
            unusable.Tell(session.Error);
            bytes = [];
            return false;
        }
    }
}
