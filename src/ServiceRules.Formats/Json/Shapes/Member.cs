using System.Text.Json;
using System.Text.Json.Nodes;
using ServiceRules.Formats.Json.Source;

namespace ServiceRules.Formats.Json.Shapes;

/// <summary>One member of an object: its name, hover text, and how it is read, written and stated.</summary>
internal abstract class Member<TObject>(string name, string description, bool required)
{
    public string Name => name;

    public string Description => description;

    public bool IsRequired => required;

    /// <summary>The value when the member is left out; asked only of members that may be.</summary>
    public abstract object? Absent { get; }

    public abstract bool TryRead(SourceNode node, ReadContext context, out object? value);

    public abstract void Write(Utf8JsonWriter writer, TObject owner);

    public abstract JsonObject ToSchema(SchemaDefinitions definitions);

    protected JsonObject Described(JsonObject schema)
    {
        if (schema["description"] is { } general && !schema.ContainsKey("$ref"))
        {
            string more = general.GetValue<string>();
            schema["description"] =
                more.Length == 0 || more == description ? description : $"{description} ({more})";
        }
        else
        {
            schema["description"] = description;
        }

        return schema;
    }
}
