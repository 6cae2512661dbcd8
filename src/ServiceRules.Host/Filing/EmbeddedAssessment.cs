using System.Text.Json.Serialization;
using ServiceRules.Host.Apis;

namespace ServiceRules.Host.Filing;

/// <summary>An assessment inside an answer.</summary>
[Published("assessment")]
[JsonConverter(typeof(EmbeddedJsonConverter))]
internal sealed record EmbeddedAssessment(ReadOnlyMemory<byte> Bytes) : EmbeddedDocument(Bytes);
