using System.CommandLine;
using System.Text.RegularExpressions;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Library;

namespace ServiceRules.Cli.Setup;

/// <summary>Who does something, and why.</summary>
internal static partial class GivenPerson
{
    /// <summary>More names than this help nobody.</summary>
    private const int NamedMost = 12;

    public static Option<string?> By { get; } =
        new("--by")
        {
            Description = "The person who answers for it, as the register of the site names them.",
            HelpName = "PERSON",
        };

    public static Option<string?> Reason { get; } =
        new("--reason") { Description = "Why, in a sentence.", HelpName = "TEXT" };

    /// <exception cref="InputException">It is no identity.</exception>
    public static string Checked(string name, string person) =>
        Identity().IsMatch(person)
            ? person
            : throw new InputException(
                $"{name}: `{person}` is no person of a register; accepted: 1 to 64 letters, digits, dots, hyphens and underscores"
            );

    /// <exception cref="InputException">It is no identity.</exception>
    public static string Identified(string name, string text) =>
        Identity().IsMatch(text)
            ? text
            : throw new InputException(
                $"{name}: `{text}` is no identity; accepted: 1 to 64 letters, digits, dots, hyphens and underscores, beginning with a letter or digit"
            );

    /// <summary>Who answers for it, if anybody is named: somebody in the register of the site.</summary>
    /// <exception cref="InputException">It is nobody there.</exception>
    public static string? Registered(ParseResult parsed, LoadedRules loaded)
    {
        if (parsed.GetValue(By) is not { } given)
        {
            return null;
        }

        var by = Checked(By.Name, given);
        var people = loaded.Site?.People.Select(person => person.Id.Text).ToList() ?? [];
        return people.Contains(by)
            ? by
            : throw new InputException(
                $"{By.Name}: `{by}` is not in the register of the site in `{loaded.Folder}`; accepted: {Named(people)}"
            );
    }

    /// <summary>Both, where both are needed.</summary>
    /// <exception cref="InputException">One is missing, it is nobody of the register, or the reason names somebody of it.</exception>
    public static Correction Correcting(ParseResult parsed, string what, LoadedRules loaded)
    {
        if ((Registered(parsed, loaded), parsed.GetValue(Reason)) is not ({ } by, { Length: > 0 } reason))
        {
            throw new InputException($"{what} needs --by PERSON and --reason TEXT: who, and why");
        }

        return ReasonNames.NamedIn(reason, loaded.Site!.People.Select(person => person.Id.Text)) is { } named
            ? throw new InputException($"{Reason.Name}: {ReasonNames.Refusal(named)}")
            : new Correction(by, reason);
    }

    private static string Named(List<string> people) =>
        people.Count == 0
            ? "--rules and a folder in which the site has people"
            : string.Join(", ", people.Take(NamedMost)) + (people.Count > NamedMost ? ", ..." : "");

    [GeneratedRegex(@"\A[A-Za-z0-9][A-Za-z0-9._\-]{0,63}\z")]
    private static partial Regex Identity();
}
