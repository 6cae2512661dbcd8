using System.Globalization;
using ServiceRules.Formats.Json.Source;

namespace ServiceRules.Formats.Json.Shapes;

/// <summary>Gathers what a reading finds: problems, and the identities that are declared and referred to.</summary>
public sealed class ReadContext
{
    private readonly SourceDocument document;
    private readonly ProblemList problems;
    private readonly Dictionary<string, Dictionary<string, SourceNode>> declared = new(
        StringComparer.Ordinal
    );
    private readonly List<(string Kind, string Identity, SourceNode Node)> references = [];

    internal ReadContext(SourceDocument document, ProblemList problems)
    {
        this.document = document;
        this.problems = problems;
    }

    internal bool HasProblems => !problems.IsEmpty;

    /// <summary>Reports a problem with the value found at a node.</summary>
    public void Report(SourceNode node, string code, string what, string accepted) =>
        Report(node, code, what, node.Shown, accepted);

    internal void Report(SourceNode node, string code, string what, string found, string accepted)
    {
        if (problems.HasRoom)
        {
            Add(document.PositionOf(node), node.Pointer, code, what, found, accepted);
        }
        else
        {
            problems.CountOne();
        }
    }

    /// <summary>Reports that an object lacks a member.</summary>
    internal void ReportMissing(SourceNode node, string name, string accepted) =>
        Report(node, ProblemCode.MissingName, $"`{name}` is missing", "", accepted);

    /// <summary>Reports a problem with a member's name.</summary>
    internal void ReportName(SourceNode member, string code, string what, Func<string> accepted)
    {
        if (problems.HasRoom)
        {
            string found = FoundText.Of(member.Name!);
            Add(document.PositionOfName(member), member.Pointer, code, what, found, accepted());
        }
        else
        {
            problems.CountOne();
        }
    }

    /// <summary>Notes that a value names a new thing of a kind; the same name twice is a problem.</summary>
    internal void Declare(string kind, string identity, SourceNode node)
    {
        if (!declared.TryGetValue(kind, out Dictionary<string, SourceNode>? known))
        {
            declared[kind] = known = new(StringComparer.Ordinal);
        }

        if (!known.TryAdd(identity, node))
        {
            string first = known[identity].Pointer.ToString();
            Report(
                node,
                ProblemCode.DuplicateIdentity,
                $"{kind} is named twice, first at {first}",
                "each name once"
            );
        }
    }

    /// <summary>Notes that a value refers to a thing of a kind, which must be declared somewhere in the document.</summary>
    internal void Refer(string kind, string identity, SourceNode node) =>
        references.Add((kind, identity, node));

    /// <summary>
    /// Reports each thing that is referred to and not declared: once, where it is first named, with how often more.
    /// </summary>
    internal void CheckReferences()
    {
        foreach (var named in references.GroupBy(one => (one.Kind, one.Identity)))
        {
            (string kind, string identity) = named.Key;
            SourceNode node = named.First().Node;
            IReadOnlyCollection<string> known = declared.TryGetValue(
                kind,
                out Dictionary<string, SourceNode>? names
            )
                ? names.Keys
                : [];
            if (!known.Contains(identity))
            {
                string accepted = problems.HasRoom
                    ? WordList.OneOf(identity, known, $"no {kind} is listed")
                    : "";
                Report(
                    node,
                    ProblemCode.DanglingReference,
                    $"no such {kind} in this document{AndElsewhere(named.Count() - 1)}",
                    accepted
                );
            }
        }
    }

    private static string AndElsewhere(int others) =>
        others switch
        {
            0 => "",
            1 => "; it is named at one more place",
            _ => string.Create(CultureInfo.InvariantCulture, $"; it is named at {others} more places"),
        };

    private void Add(
        SourcePosition position,
        JsonPointer pointer,
        string code,
        string what,
        string found,
        string accepted
    ) => problems.Add(new(code, pointer.ToString(), position.Line, position.Column, what, found, accepted));
}
