using System.CommandLine;
using ServiceRules.Rules.Checking;

namespace ServiceRules.Cli.Setup;

/// <summary>Words of the files given with an option.</summary>
internal static class GivenWord
{
    /// <exception cref="InputException">It is none of them.</exception>
    public static TEnum Of<TEnum>(string option, string word)
        where TEnum : struct, Enum
    {
        var values = Enum.GetValues<TEnum>();
        var at = Array.FindIndex(values, value => FileWord.Of(value) == word);
        return at >= 0
            ? values[at]
            : throw new InputException($"{option}: `{word}` is not known; accepted: {All<TEnum>()}");
    }

    /// <summary>The two halves of what is given as <c>this=that</c>.</summary>
    /// <exception cref="InputException">There are no two halves.</exception>
    public static (string Name, string Value) Pair(string option, string text, string example)
    {
        var at = text.IndexOf('=', StringComparison.Ordinal);
        return at > 0 && at < text.Length - 1
            ? (text[..at].Trim(), text[(at + 1)..].Trim())
            : throw new InputException(
                $"{option}: `{text}` has no `=` between two parts; accepted: such as `{example}`"
            );
    }

    /// <exception cref="InputException">It is missing.</exception>
    public static string Needed(ParseResult parsed, Option<string?> option, string what, string example) =>
        parsed.GetValue(option)
        ?? throw new InputException(
            $"{option.Name} is not given: {what}; accepted: `{option.Name} {example}`"
        );

    public static string All<TEnum>()
        where TEnum : struct, Enum => string.Join(", ", Enum.GetValues<TEnum>().Select(FileWord.Of));
}
