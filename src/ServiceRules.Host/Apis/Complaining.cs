using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using ServiceRules.Host.Problems;

namespace ServiceRules.Host.Apis;

internal static class Complaining
{
    // Whatever is asked, these may be the answer.
    private static readonly ProblemKind[] Always =
    [
        ProblemKind.NotKnown,
        ProblemKind.NotAllowed,
        ProblemKind.TooMany,
        ProblemKind.Failed,
        ProblemKind.Busy,
    ];

    /// <summary>States the problems that an answer may tell.</summary>
    public static RouteHandlerBuilder Complains(this RouteHandlerBuilder route, params ProblemKind[] kinds)
    {
        foreach (var status in kinds.Concat(Always).Select(kind => kind.Status).Distinct())
        {
            route.Produces<ProblemDocument>(status, ProblemDocument.MediaType);
        }

        return route;
    }
}
