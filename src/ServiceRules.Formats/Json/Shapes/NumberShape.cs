using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using ServiceRules.Formats.Json.Source;

namespace ServiceRules.Formats.Json.Shapes;

/// <summary>A plain number (a count, a share; quantities are texts with their unit), read exactly.</summary>
internal sealed class NumberShape(decimal min, decimal max, bool whole, string description)
    : JsonShape<decimal>
{
    public override string Description => description;

    private string Accepted =>
        string.Create(CultureInfo.InvariantCulture, $"a {(whole ? "whole " : "")}number from {min} to {max}");

    public override bool TryRead(SourceNode node, ReadContext context, out decimal value)
    {
        if (node.Kind != SourceKind.Number)
        {
            return WrongType(node, context, Accepted, out value);
        }

        bool read = TryParse(node.Content, out value);
        if (!read || value < min || value > max)
        {
            context.Report(node, ProblemCode.OutOfRange, "the number is out of range", Accepted);
            return false;
        }

        if (whole && value != decimal.Truncate(value))
        {
            context.Report(node, ProblemCode.WrongType, "the number is not whole", Accepted);
            return false;
        }

        return true;
    }

    public override void Write(Utf8JsonWriter writer, decimal value) => writer.WriteNumberValue(value);

    public override JsonObject ToSchema(SchemaDefinitions definitions)
    {
        JsonObject schema = new()
        {
            ["type"] = whole ? "integer" : "number",
            ["minimum"] = min,
            ["maximum"] = max,
        };
        if (description.Length > 0)
        {
            schema["description"] = description;
        }

        return schema;
    }

    private static bool TryParse(string digits, out decimal value)
    {
        value = 0;
        return digits.Length <= ReadLimits.NumberLength
            && decimal.TryParse(digits, NumberStyles.Float, CultureInfo.InvariantCulture, out value);
    }
}
