using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using FsCheck.Xunit;
using Json.Schema;
using ServiceRules.Formats.Json;

namespace ServiceRules.Formats.Tests.Json;

/// <summary>The published schema and the reader accept the same documents, save for what a schema cannot say.</summary>
public sealed class SchemaAgreementTests
{
    // A schema knows nothing of identities, of one member against another, of domain parsing or repeated names.
    private static readonly string[] BeyondSchema =
    [
        ProblemCode.DanglingReference,
        ProblemCode.DuplicateIdentity,
        ProblemCode.Contradiction,
        ProblemCode.Unreadable,
        ProblemCode.DuplicateName,
        ProblemCode.TextSurrogate,
    ];

    private static readonly JsonSchema Published = JsonSchema.FromText(ShedFormat.Format.Schema());

    [Fact]
    public void Schema_ItsOwnText_IsValid202012()
    {
        using JsonDocument schema = JsonDocument.Parse(ShedFormat.Format.Schema());
        EvaluationResults results = MetaSchemas.Draft202012.Evaluate(schema.RootElement);
        Assert.True(results.IsValid);
    }

    [Fact]
    public void Schema_OfAMember_CarriesHoverText()
    {
        JsonNode schema = JsonNode.Parse(ShedFormat.Format.Schema())!;
        Assert.Equal(
            "whether it is locked",
            schema["properties"]!["locked"]!["description"]!.GetValue<string>()
        );
        Assert.False(schema["properties"]!["locked"]!["default"]!.GetValue<bool>());
        Assert.Equal("#/$defs/gauge", schema["properties"]!["gauges"]!["items"]!["$ref"]!.GetValue<string>());
    }

    [Fact]
    public void Evaluate_TheValidDocument_Accepts() => Assert.True(SchemaAccepts(ShedFormat.Valid));

    [Property(MaxTest = 3_000)]
    public void Read_GeneratedDocument_AgreesWithTheSchema(short a, short b)
    {
        string text = new DocumentMutation((a * 7919) + b).Of(ShedFormat.Valid);
        bool schema = SchemaAccepts(text);
        bool read = ShedFormat
            .Format.Read(Encoding.UTF8.GetBytes(text))
            .TryGet(out _, out ProblemReport problems);
        bool expected = read || problems.Told.All(problem => BeyondSchema.Contains(problem.Code));
        Assert.True(schema == expected, $"schema {schema}, reader {problems}\n{text}");
    }

    [Fact]
    public void Mutation_OverManySeeds_ReachesBothAnswers()
    {
        int accepted = Enumerable
            .Range(0, 400)
            .Count(seed => SchemaAccepts(new DocumentMutation(seed).Of(ShedFormat.Valid)));
        Assert.InRange(accepted, 20, 380);
    }

    private static bool SchemaAccepts(string text)
    {
        using JsonDocument document = JsonDocument.Parse(text);
        return Published.Evaluate(document.RootElement).IsValid;
    }
}
