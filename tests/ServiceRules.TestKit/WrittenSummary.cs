using System.Collections.Concurrent;
using System.Xml.Linq;

namespace ServiceRules.TestKit;

/// <summary>The summary above a constant or a word in the source, from the documentation that the compiler wrote out.</summary>
public static class WrittenSummary
{
    private static readonly ConcurrentDictionary<string, Dictionary<string, XElement>> Files = new(
        StringComparer.Ordinal
    );

    /// <summary>The sentences above a constant, on one line.</summary>
    /// <param name="holder">The type that declares it.</param>
    /// <param name="member">Its name.</param>
    public static string Of(Type holder, string member)
    {
        ArgumentNullException.ThrowIfNull(holder);
        ArgumentNullException.ThrowIfNull(member);
        string name = $"F:{holder.FullName!.Replace('+', '.')}.{member}";
        return Files.GetOrAdd(holder.Assembly.GetName().Name!, Read).TryGetValue(name, out var summary)
            ? string.Join(
                ' ',
                Said(summary).Split((char[])[' ', '\n', '\r'], StringSplitOptions.RemoveEmptyEntries)
            )
            : "";
    }

    /// <summary>The sentences above a word of a closed vocabulary, or null where it has none.</summary>
    /// <param name="word">The word.</param>
    public static string? Of(Enum word)
    {
        ArgumentNullException.ThrowIfNull(word);
        return Of(word.GetType(), word.ToString()) is { Length: > 0 } said ? said : null;
    }

    private static Dictionary<string, XElement> Read(string assembly) =>
        XDocument
            .Load(Path.Combine(AppContext.BaseDirectory, assembly + ".xml"))
            .Descendants("member")
            .Where(member => member.Element("summary") is not null)
            .ToDictionary(
                member => (string)member.Attribute("name")!,
                member => member.Element("summary")!,
                StringComparer.Ordinal
            );

    /// <summary>A name in the source is shown by its last part: readers of a schema have no source.</summary>
    private static string Said(XElement summary) =>
        string.Concat(
            summary
                .Nodes()
                .Select(node =>
                    node switch
                    {
                        XText text => text.Value,
                        XElement { Name.LocalName: "see" or "seealso" } named => Plain(
                            ((string?)named.Attribute("cref") ?? "").Split('.', ':')[^1]
                        ),
                        XElement element => element.Value,
                        _ => "",
                    }
                )
        );

    private static string Plain(string name) =>
        string.Concat(
            name.Select(
                (letter, at) =>
                    char.IsAsciiLetterUpper(letter)
                        ? (at > 0 ? " " : "") + char.ToLowerInvariant(letter)
                        : letter.ToString()
            )
        );
}
