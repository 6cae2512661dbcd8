using System.Globalization;
using Microsoft.AspNetCore.Diagnostics;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.Logging;
using ServiceRules.Application.Filed;
using ServiceRules.Application.Ledger;

namespace ServiceRules.Host.Problems;

/// <summary>Tells a failure that no value stands for: the client by its kind alone, the log by what it was.</summary>
internal sealed partial class ToldFailure(ILogger<ToldFailure> log) : IExceptionHandler
{
    private const int AgainSeconds = 2;

    public async ValueTask<bool> TryHandleAsync(
        HttpContext httpContext,
        Exception exception,
        CancellationToken cancellationToken
    )
    {
        var (kind, detail) = Of(exception, httpContext);
        if (kind.Status >= StatusCodes.Status500InternalServerError)
        {
            Failed(log, kind.Name, exception);
        }

        // Rows stay as they are until somebody has them made anew.
        if (kind.Status >= StatusCodes.Status500InternalServerError && kind != ProblemKind.Lists)
        {
            httpContext.Response.Headers.RetryAfter = AgainSeconds.ToString(CultureInfo.InvariantCulture);
        }

        await Complaint.Of(kind, detail).ExecuteAsync(httpContext);
        return true;
    }

    private static (ProblemKind Kind, string Detail) Of(Exception exception, HttpContext context) =>
        exception switch
        {
            OtherKindException other => (ProblemKind.MediaType, OtherKind(context, other.Accepted)),
            BadHttpRequestException bad when ProblemKind.OfStatus(bad.StatusCode) is var kind => (
                kind,
                kind == ProblemKind.TooLarge ? $"a body is larger than {Most(context)} bytes"
                : kind == ProblemKind.Slow ? "the body did not arrive in time"
                : kind.Title
            ),
            LedgerStoreException store => StoreProblem.Of(store),
            BrokenLogException => StoreProblem.Broken,
            OperationCanceledException => (ProblemKind.Busy, "it took too long and was given up"),
            _ when DiskFull.Is(exception) => StoreProblem.Of(StoreTrouble.Full),
            _ => (ProblemKind.Failed, "the failure is told in the log of the service"),
        };

    /// <summary>What is told of a body of another kind than is taken.</summary>
    /// <param name="context">The request.</param>
    /// <param name="accepted">The kinds that are taken.</param>
    public static string OtherKind(HttpContext context, string accepted)
    {
        var sent =
            context.Request.Headers.ContentEncoding.Count > 0 ? "a body that is compressed"
            : string.IsNullOrEmpty(context.Request.ContentType) ? "a body without Content-Type"
            : $"a body of {Shortened.To(context.Request.ContentType, 80)}";
        return $"{sent} is not taken here; accepted: {accepted}, not compressed, in UTF-8 where it is text";
    }

    private static string Most(HttpContext context) =>
        context
            .Features.Get<Microsoft.AspNetCore.Http.Features.IHttpMaxRequestBodySizeFeature>()
            ?.MaxRequestBodySize?.ToString(CultureInfo.InvariantCulture)
        ?? "the accepted";

    [LoggerMessage(Level = LogLevel.Error, Message = "a request ended with the problem {Kind}")]
    private static partial void Failed(ILogger logger, string kind, Exception exception);
}
