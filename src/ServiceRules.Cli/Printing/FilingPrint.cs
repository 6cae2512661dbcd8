using ServiceRules.Application.Ledger;
using ServiceRules.Cli.Setup;
using ServiceRules.Formats.Ledger;

namespace ServiceRules.Cli.Printing;

/// <summary>What came of a filing: where everything stands now, or why it does not.</summary>
internal static class FilingPrint
{
    public static int Write(Session session, string file, string subject, FilingOutcome outcome)
    {
        switch (outcome)
        {
            case FilingOutcome.Filed filed:
                session.Tell(
                    $"{subject}: {string.Join(", ", filed.Entries.Select(Told))}; log size {filed.Head.Size}"
                );
                foreach (var person in filed.FirstNamed)
                {
                    session.Error.WriteLine(
                        $"`{person}` is named in this log for the first time, or again: people were forgotten here, and whether they "
                            + "are one of them cannot be told"
                    );
                }

                return ExitCode.Good;
            case FilingOutcome.Refused refused:
                session.Error.WriteLine($"{file}: {refused.Refusal}");
                return ExitCode.NotGood;
            case FilingOutcome.Unreadable unreadable:
                ProblemPrint.Write(session.Error, file, unreadable.Problems);
                return ExitCode.Unusable;
            case FilingOutcome.Broken broken:
                throw new InputException($"nothing was filed; {broken.Fault}");
            default:
                throw new InvalidOperationException("an unknown outcome of filing");
        }
    }

    public static string Word(EntryKind kind) =>
        kind switch
        {
            EntryKind.SettingOrder => "setting order",
            EntryKind.PackActivation => "rules in force",
            _ => kind.ToString().ToLowerInvariant(),
        };

    private static string Told(FilingOutcome.Placed placed) =>
        $"{Word(placed.Entry.Entry.Kind)} {(placed.IsNew ? "is" : "stands already as")} entry {placed.Entry.Index}";
}
