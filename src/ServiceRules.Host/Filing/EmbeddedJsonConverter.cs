using System.Text.Json;
using System.Text.Json.Serialization;

namespace ServiceRules.Host.Filing;

internal sealed class EmbeddedJsonConverter : JsonConverter<EmbeddedJson>
{
    public override EmbeddedJson Read(
        ref Utf8JsonReader reader,
        Type typeToConvert,
        JsonSerializerOptions options
    ) => throw new NotSupportedException("documents are read by their own reader");

    public override void Write(Utf8JsonWriter writer, EmbeddedJson value, JsonSerializerOptions options) =>
        writer.WriteRawValue(value.Bytes.Span, skipInputValidation: true);
}
