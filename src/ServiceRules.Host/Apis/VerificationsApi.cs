using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;
using ServiceRules.Host.Accounts;
using ServiceRules.Host.Problems;
using ServiceRules.Host.Verifying;

namespace ServiceRules.Host.Apis;

/// <summary><c>/api/verifications</c>: whether a report that somebody holds is genuine.</summary>
internal static class VerificationsApi
{
    public static void MapVerifications(this IEndpointRouteBuilder routes) =>
        routes
            .MapPost("/api/verifications", LookAsync)
            .WithName("verify")
            .WithTags("reports")
            .WithSummary("Whether a signed report is genuine, and whether it stands in the log here.")
            .WithDescription(
                "Its bytes and signature, that its verdict follows again from what it carries, and that its pages show just that. "
                    + "The certificates of this service are trusted, today's and earlier; nothing is stored. A file that is no "
                    + "report is answered for as well, as `unreadable`."
            )
            .WithMetadata(new RequestSizeLimitAttribute(ServiceLimits.ReportBytes))
            .Accepts<byte[]>(MediaTypes.Pdf)
            .Produces<VerificationAnswer>()
            .Complains(ProblemKind.Slow, ProblemKind.TooLarge, ProblemKind.MediaType);

    private static async Task<IResult> LookAsync(
        HttpRequest request,
        VerificationDesk desk,
        CancellationToken stop
    ) =>
        Results.Json(
            await desk.LookAsync(
                await RequestBody.ReadAsync(request, MediaTypes.Pdf, ServiceLimits.ReportBytes, stop),
                Caller.Known(request.HttpContext.User),
                stop
            )
        );
}
