using System.Globalization;
using System.Text.Json.Nodes;
using Microsoft.AspNetCore.OpenApi;
using Microsoft.Net.Http.Headers;
using Microsoft.OpenApi;
using ServiceRules.Application.Submitting;
using ServiceRules.Host.Apis;
using ServiceRules.Host.Problems;

namespace ServiceRules.Host.Description;

/// <summary>Says of an operation what its types do not: which problems it answers with, and what else it takes.</summary>
internal static class OperationText
{
    /// <summary>Marks an answer with the kinds of problem that it may be.</summary>
    public const string Mark = "x-problems";

    public static void Complete(OpenApiOperation operation, OpenApiOperationTransformerContext context)
    {
        var told = context.Description.ActionDescriptor.EndpointMetadata;
        foreach (var kind in told.OfType<ComplainedKinds>().SelectMany(one => one.Kinds).Distinct())
        {
            Tell(operation, kind);
        }

        if (told.OfType<TakesKeyMetadata>().Any())
        {
            TakeKey(operation);
        }

        if (told.OfType<TakesIfMatchMetadata>().Any())
        {
            TakeTag(operation);
        }
    }

    private static void Tell(OpenApiOperation operation, ProblemKind kind)
    {
        var status = kind.Status.ToString(CultureInfo.InvariantCulture);
        if (operation.Responses?[status] is not OpenApiResponse answer)
        {
            return;
        }

        answer.Extensions ??= new Dictionary<string, IOpenApiExtension>(StringComparer.Ordinal);
        var kinds =
            (answer.Extensions.TryGetValue(Mark, out var known) ? (known as JsonNodeExtension)?.Node : null)
            as JsonArray;
        answer.Description =
            (kinds is null ? "" : answer.Description + "; ") + $"`{kind.Name}`: {kind.Title}";
        kinds ??= [];
        kinds.Add(kind.Name);
        answer.Extensions[Mark] = new JsonNodeExtension(kinds);
    }

    private static void TakeTag(OpenApiOperation operation) =>
        (operation.Parameters ??= []).Add(
            new OpenApiParameter
            {
                Name = HeaderNames.IfMatch,
                In = ParameterLocation.Header,
                Description =
                    "the ETag under which the record was read; left out: it is corrected as it stands",
                Schema = new OpenApiSchema { Type = JsonSchemaType.String },
            }
        );

    private static void TakeKey(OpenApiOperation operation) =>
        (operation.Parameters ??= []).Add(
            new OpenApiParameter
            {
                Name = IdempotencyKey.Header,
                In = ParameterLocation.Header,
                Description =
                    "what the sender names this request by, so that the same again gets the same answer: a text in double quotes",
                Schema = new OpenApiSchema
                {
                    Type = JsonSchemaType.String,
                    MinLength = 3,
                    // Each character may stand behind a backslash, and there are the quotes.
                    MaxLength = SubmissionKey.MostCharacters * 2 + 2,
                },
                Example = JsonValue.Create("\"8e03978e-40d5-43dd-bc93-6894a57f9324\""),
            }
        );
}
