/**
 * Settings, in the environment of a child process, of the C library and of the bundler's own allocator: threads share two pools
 * of memory instead of having one each, and what is free goes back to the system at once. Some 300 MB less; where these
 * allocators are not used, they mean nothing.
 */
export const ALLOCATORS = {
  MALLOC_ARENA_MAX: '2',
  MIMALLOC_PURGE_DELAY: '0',
  MIMALLOC_ARENA_EAGER_COMMIT: '0',
} as const;
