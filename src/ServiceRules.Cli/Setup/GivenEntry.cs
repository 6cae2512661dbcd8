using System.CommandLine;
using System.CommandLine.Parsing;
using ServiceRules.Application.Authoring;
using ServiceRules.Application.Library;

namespace ServiceRules.Cli.Setup;

/// <summary>What commands that enter something in the registers have in common.</summary>
internal static class GivenEntry
{
    public static Option<bool> Change { get; } =
        new("--change") { Description = "Change the entry that stands: what is not given stays as it is." };

    /// <summary>What is given of sources of energy.</summary>
    public static Option<string[]> Source { get; } =
        Many(
            "--source",
            $"What is so of a source of energy, once for each member ({SourceMembers.Names}): hydraulic proof=controls move without effect.",
            "SOURCE MEMBER=TEXT"
        );

    /// <summary>
    /// The folder that something is entered in. It has to be said: the one that travels with the program is the example shop, and
    /// nothing of a real one belongs there.
    /// </summary>
    /// <exception cref="InputException">It is not given, or is not sound.</exception>
    public static LoadedRules Folder(ParseResult parsed) =>
        parsed.GetValue(RulesInForce.Option) is null
            ? throw new InputException(
                $"{RulesInForce.Option.Name} is not given: in which shop; accepted: `{RulesInForce.Option.Name} shop`; `rules new site` makes the folder, and the one that travels with the program is an example"
            )
            : RulesInForce.Sound(parsed);

    public static Option<string?> One(string name, string description, string help) =>
        new(name) { Description = description, HelpName = help };

    public static Option<string[]> Many(string name, string description, string help) =>
        new(name)
        {
            Description = description,
            HelpName = help,
            Arity = ArgumentArity.OneOrMore,
        };

    public static IEnumerable<GivenSource> Sources(ParseResult parsed, Gathered gathered) =>
        gathered.Each(parsed.GetValue(Source), SourceOf);

    /// <summary>A flag that is said with yes or no, so that a change can take it back.</summary>
    /// <exception cref="InputException">It is neither.</exception>
    public static bool? Flag(ParseResult parsed, Option<string?> option) =>
        parsed.GetValue(option) switch
        {
            null => null,
            "yes" => true,
            "no" => false,
            var other => throw new InputException(
                $"{option.Name}: `{other}` is neither; accepted: yes or no"
            ),
        };

    /// <summary>Whether anything was given besides the names in <paramref name="others"/>.</summary>
    public static bool SaysSomething(ParseResult parsed, params Option[] others) =>
        parsed
            .CommandResult.Children.OfType<OptionResult>()
            .Any(one => !one.Implicit && !others.Contains(one.Option));

    private static GivenSource SourceOf(string text)
    {
        const string Example = "hydraulic proof=controls move without effect";
        var (name, value) = GivenWord.Pair(Source.Name, text, Example);
        return name.Split(' ', StringSplitOptions.RemoveEmptyEntries) is [var source, var member]
            ? new(source, member, value)
            : throw new InputException(
                $"{Source.Name}: `{name}` is not a source and one of its members; accepted: such as `{Example}`"
            );
    }
}
