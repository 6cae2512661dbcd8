using System.Text.Json;
using System.Text.Json.Serialization;

namespace ServiceRules.Host.Filing;

internal sealed class EmbeddedJsonConverter : JsonConverter<EmbeddedDocument>
{
    public override bool CanConvert(Type typeToConvert) =>
        typeToConvert.IsAssignableTo(typeof(EmbeddedDocument));

    public override EmbeddedDocument Read(
        ref Utf8JsonReader reader,
        Type typeToConvert,
        JsonSerializerOptions options
    ) => throw new NotSupportedException("documents are read by their own reader");

    public override void Write(
        Utf8JsonWriter writer,
        EmbeddedDocument value,
        JsonSerializerOptions options
    ) => writer.WriteRawValue(value.Bytes.Span, skipInputValidation: true);
}
