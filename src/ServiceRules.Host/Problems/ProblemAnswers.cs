using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;

namespace ServiceRules.Host.Problems;

/// <summary>Whatever goes wrong is answered by a problem document, and never by the insides of the service.</summary>
internal static class ProblemAnswers
{
    public static IServiceCollection AddProblems(this IServiceCollection services)
    {
        services.ConfigureHttpJsonOptions(json =>
        {
            json.SerializerOptions.Converters.Add(
                new JsonStringEnumConverter(JsonNamingPolicy.KebabCaseLower, allowIntegerValues: false)
            );
            // A number is a number, so that the description of the interface says so too.
            json.SerializerOptions.NumberHandling = JsonNumberHandling.Strict;
            json.SerializerOptions.DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull;
            // These answers are JSON and say so; they are never parts of a page.
            json.SerializerOptions.Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping;
        });
        return services.AddExceptionHandler<ToldFailure>();
    }

    public static void UseProblems(this IApplicationBuilder app)
    {
        app.UseExceptionHandler(
            new ExceptionHandlerOptions
            {
                SuppressDiagnosticsCallback = _ => true,
                // A failure of the handler itself: nothing is known that could be told.
                ExceptionHandler = context =>
                    Complaint.Of(ProblemKind.Failed, "the service failed").ExecuteAsync(context),
            }
        );
        app.UseStatusCodePages(status => AnswerAsync(status.HttpContext));
    }

    private static Task AnswerAsync(HttpContext context)
    {
        var kind = ProblemKind.OfStatus(context.Response.StatusCode);
        var detail =
            kind == ProblemKind.NotFound ? "no such address; accepted: what /api lists"
            : kind == ProblemKind.Method
                ? $"{Shortened.To(context.Request.Method, 20)} is not taken at this address; accepted: {context.Response.Headers.Allow}"
            : kind == ProblemKind.NotKnown
                ? "accepted: the header `Authorization: Bearer KEY` with a key that is good, or a sign-in at /sign-in"
            : kind == ProblemKind.NotAllowed
                ? "the roles of whoever asks do not open this; accepted: somebody with another role, as docs and /people tell"
            : kind == ProblemKind.MediaType ? ToldFailure.OtherKind(context, TakenKinds.At(context))
            : kind == ProblemKind.Busy ? "ask again in a moment"
            : kind.Title;
        return Complaint.Of(kind, detail).ExecuteAsync(context);
    }
}
