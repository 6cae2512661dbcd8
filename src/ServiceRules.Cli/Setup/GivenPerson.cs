using System.CommandLine;
using System.Text.RegularExpressions;
using ServiceRules.Application.Ledger;

namespace ServiceRules.Cli.Setup;

/// <summary>Who does something, and why.</summary>
internal static partial class GivenPerson
{
    public static Option<string?> By { get; } =
        new("--by")
        {
            Description = "The person who answers for it, as the register names them.",
            HelpName = "PERSON",
        };

    public static Option<string?> Reason { get; } =
        new("--reason") { Description = "Why, in a sentence.", HelpName = "TEXT" };

    /// <exception cref="InputException">It is no identity.</exception>
    public static string? Person(ParseResult parsed) =>
        parsed.GetValue(By) is { } person ? Checked(By.Name, person) : null;

    /// <exception cref="InputException">It is no identity.</exception>
    public static string Checked(string name, string person) =>
        Identity().IsMatch(person)
            ? person
            : throw new InputException(
                $"{name}: `{person}` is no person of a register; accepted: 1 to 64 letters, digits, dots, hyphens and underscores"
            );

    /// <summary>Both, where both are needed.</summary>
    /// <exception cref="InputException">One is missing.</exception>
    public static Correction Correcting(ParseResult parsed, string what) =>
        (Person(parsed), parsed.GetValue(Reason)) is ({ } by, { Length: > 0 } reason)
            ? new Correction(by, reason)
            : throw new InputException($"{what} needs --by PERSON and --reason TEXT: who, and why");

    [GeneratedRegex(@"\A[A-Za-z0-9][A-Za-z0-9._\-]{0,63}\z")]
    private static partial Regex Identity();
}
