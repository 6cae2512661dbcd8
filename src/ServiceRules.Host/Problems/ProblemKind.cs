using Microsoft.AspNetCore.Http;

namespace ServiceRules.Host.Problems;

/// <summary>The kinds of problem that answers tell, each under a name that stays.</summary>
/// <param name="Name">Its name; the page of the interface explains it there.</param>
/// <param name="Status">The status of the answer.</param>
/// <param name="Title">What it is, in a few words that are always the same.</param>
internal sealed record ProblemKind(string Name, int Status, string Title)
{
    public static readonly ProblemKind Unreadable = new(
        "unreadable",
        StatusCodes.Status400BadRequest,
        "the body is no JSON document"
    );
    public static readonly ProblemKind BadRequest = new(
        "bad-request",
        StatusCodes.Status400BadRequest,
        "the request cannot be understood"
    );
    public static readonly ProblemKind NotKnown = new(
        "not-known",
        StatusCodes.Status401Unauthorized,
        "nobody is known to ask"
    );
    public static readonly ProblemKind NotAllowed = new(
        "not-allowed",
        StatusCodes.Status403Forbidden,
        "whoever asks may not"
    );
    public static readonly ProblemKind OtherSite = new(
        "other-site",
        StatusCodes.Status403Forbidden,
        "a page of another site may not ask this"
    );
    public static readonly ProblemKind OtherForm = new(
        "other-form",
        StatusCodes.Status403Forbidden,
        "the form is of no page that this account was shown"
    );
    public static readonly ProblemKind NotFound = new(
        "not-found",
        StatusCodes.Status404NotFound,
        "there is nothing here"
    );
    public static readonly ProblemKind Method = new(
        "method",
        StatusCodes.Status405MethodNotAllowed,
        "this cannot be asked here"
    );
    public static readonly ProblemKind Slow = new(
        "slow",
        StatusCodes.Status408RequestTimeout,
        "the request came too slowly"
    );
    public static readonly ProblemKind Conflict = new(
        "conflict",
        StatusCodes.Status409Conflict,
        "something else stands under this identity"
    );
    public static readonly ProblemKind UnderWay = new(
        "under-way",
        StatusCodes.Status409Conflict,
        "the first request with this key has not ended"
    );
    public static readonly ProblemKind Gone = new(
        "gone",
        StatusCodes.Status410Gone,
        "the content is no longer kept"
    );
    public static readonly ProblemKind Changed = new(
        "changed",
        StatusCodes.Status412PreconditionFailed,
        "it was changed since it was read"
    );
    public static readonly ProblemKind TooLarge = new(
        "too-large",
        StatusCodes.Status413PayloadTooLarge,
        "the body is larger than any document is"
    );
    public static readonly ProblemKind MediaType = new(
        "media-type",
        StatusCodes.Status415UnsupportedMediaType,
        "the body is of a kind that is not taken here"
    );
    public static readonly ProblemKind Refused = new(
        "refused",
        StatusCodes.Status422UnprocessableEntity,
        "the document is refused"
    );
    public static readonly ProblemKind KeyReused = new(
        "key-reused",
        StatusCodes.Status422UnprocessableEntity,
        "this key was sent with another request"
    );
    public static readonly ProblemKind TooMany = new(
        "too-many",
        StatusCodes.Status429TooManyRequests,
        "too many requests"
    );
    public static readonly ProblemKind Failed = new(
        "failed",
        StatusCodes.Status500InternalServerError,
        "the service failed"
    );
    public static readonly ProblemKind Busy = new(
        "busy",
        StatusCodes.Status503ServiceUnavailable,
        "the service is busy; nothing was stored"
    );
    public static readonly ProblemKind Storage = new(
        "storage",
        StatusCodes.Status503ServiceUnavailable,
        "the store cannot take or give anything now"
    );
    public static readonly ProblemKind Lists = new(
        "lists-differ",
        StatusCodes.Status503ServiceUnavailable,
        "what lists are made of is not what was made of the log"
    );
    public static readonly ProblemKind Full = new(
        "full",
        StatusCodes.Status507InsufficientStorage,
        "no room is left; nothing was stored"
    );

    public static IReadOnlyList<ProblemKind> All { get; } =
    [
        Unreadable,
        BadRequest,
        NotKnown,
        NotAllowed,
        OtherSite,
        OtherForm,
        NotFound,
        Method,
        Slow,
        Conflict,
        UnderWay,
        Gone,
        Changed,
        TooLarge,
        MediaType,
        Refused,
        KeyReused,
        TooMany,
        Failed,
        Busy,
        Storage,
        Lists,
        Full,
    ];

    /// <summary>Where it is explained: the <c>type</c> of its documents (RFC 9457).</summary>
    public string Type => $"/api#problem-{Name}";

    /// <summary>The kind for an answer of which nothing but its status is known.</summary>
    public static ProblemKind OfStatus(int status) =>
        status switch
        {
            StatusCodes.Status400BadRequest => BadRequest,
            StatusCodes.Status401Unauthorized => NotKnown,
            StatusCodes.Status403Forbidden => NotAllowed,
            StatusCodes.Status404NotFound => NotFound,
            StatusCodes.Status405MethodNotAllowed => Method,
            StatusCodes.Status408RequestTimeout => Slow,
            StatusCodes.Status412PreconditionFailed => Changed,
            StatusCodes.Status413PayloadTooLarge => TooLarge,
            StatusCodes.Status415UnsupportedMediaType => MediaType,
            StatusCodes.Status429TooManyRequests => TooMany,
            StatusCodes.Status503ServiceUnavailable or StatusCodes.Status504GatewayTimeout => Busy,
            < StatusCodes.Status500InternalServerError => BadRequest with { Status = status },
            _ => Failed,
        };
}
