using System.Diagnostics.CodeAnalysis;
using System.Text.Json;
using System.Text.Json.Nodes;
using ServiceRules.Formats.Json.Source;

namespace ServiceRules.Formats.Json.Shapes;

/// <summary>An object of one of several kinds, told apart by which of their key members it has.</summary>
internal sealed class KeyedShape<T> : JsonShape<T>
    where T : notnull
{
    private readonly string name;
    private readonly KeyedCase<T>[] cases;
    private readonly string keys;

    public KeyedShape(string name, string description, KeyedCase<T>[] cases)
    {
        this.name = name;
        this.cases = cases;
        Description = description;
        keys = "one of " + string.Join(", ", cases.Select(one => $"`{one.Key}`"));
    }

    public override string Description { get; }

    public override bool TryRead(SourceNode node, ReadContext context, [NotNullWhen(true)] out T? value)
    {
        if (node.Kind != SourceKind.Object)
        {
            return WrongType(node, context, "an object with " + keys, out value);
        }

        KeyedCase<T>[] meant = [.. cases.Where(one => node.Member(one.Key) is not null)];
        if (meant.Length == 1)
        {
            return meant[0].TryRead(node, context, out value);
        }

        string what = meant.Length == 0 ? "nothing says what this is" : "this is two things at once";
        context.Report(node, ProblemCode.MissingName, what, keys);
        value = default;
        return false;
    }

    public override void Write(Utf8JsonWriter writer, T value) =>
        cases.First(candidate => candidate.Holds(value)).Write(writer, value);

    public override JsonObject ToSchema(SchemaDefinitions definitions) =>
        definitions.Refer(
            name,
            this,
            () =>
                new JsonObject
                {
                    ["type"] = "object",
                    ["description"] = Description,
                    ["oneOf"] = new JsonArray([.. cases.Select(one => one.ToSchema(definitions))]),
                }
        );
}
