using System.Text.Json.Serialization;

namespace ServiceRules.Host.Filing;

/// <summary>A document inside an answer, byte for byte as it is kept.</summary>
[JsonConverter(typeof(EmbeddedJsonConverter))]
internal readonly record struct EmbeddedJson(ReadOnlyMemory<byte> Bytes);
