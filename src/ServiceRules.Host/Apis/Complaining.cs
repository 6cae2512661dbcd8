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
        ProblemKind.OtherSite,
        ProblemKind.TooMany,
        ProblemKind.Failed,
        ProblemKind.Busy,
        ProblemKind.Storage,
        ProblemKind.Lists,
    ];

    /// <summary>States the problems that an answer may tell.</summary>
    public static RouteHandlerBuilder Complains(this RouteHandlerBuilder route, params ProblemKind[] kinds)
    {
        var all = kinds.Concat(Always).Distinct().ToList();
        foreach (var status in all.Select(kind => kind.Status).Distinct())
        {
            route.Produces<ProblemDocument>(status, ProblemDocument.MediaType);
        }

        return route.WithMetadata(new ComplainedKinds(all));
    }
}
