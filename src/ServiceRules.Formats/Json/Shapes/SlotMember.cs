using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using ServiceRules.Formats.Json.Source;

namespace ServiceRules.Formats.Json.Shapes;

/// <summary>A member whose JSON value is a <typeparamref name="T"/> and that fills a slot of its owner.</summary>
/// <param name="present">The value to write, or nothing when the member is left out.</param>
/// <param name="absent">The value of the slot when the member is left out.</param>
/// <param name="fallback">The value that leaving out stands for, if it stands for one.</param>
internal sealed class SlotMember<TObject, T>(
    string name,
    JsonShape<T> shape,
    string description,
    bool required,
    TryPresent<TObject, T> present,
    Func<T, object?> fill,
    object? absent,
    Func<T>? fallback
) : Member<TObject>(name, description, required)
    where T : notnull
{
    public override object? Absent => absent;

    public override bool TryRead(SourceNode node, ReadContext context, out object? value)
    {
        bool read = shape.TryRead(node, context, out T? one);
        value = read ? fill(one!) : null;
        return read;
    }

    public override void Write(Utf8JsonWriter writer, TObject owner)
    {
        if (present(owner, out T? value))
        {
            writer.WritePropertyName(Name);
            shape.Write(writer, value);
        }
    }

    public override JsonObject ToSchema(SchemaDefinitions definitions)
    {
        JsonObject schema = Described(shape.ToSchema(definitions));
        if (fallback is not null)
        {
            using MemoryStream written = new();
            using (Utf8JsonWriter writer = new(written))
            {
                shape.Write(writer, fallback());
            }

            schema["default"] = JsonNode.Parse(Encoding.UTF8.GetString(written.ToArray()));
        }

        return schema;
    }
}
