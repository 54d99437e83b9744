# theca_own_code(target): warnings and sanitizers for our own targets; never passed on to users.
function(theca_own_code target)
  target_compile_options(${target} PRIVATE -Wall -Wextra -Wpedantic -Wshadow -Wconversion -Wsign-conversion)
  if(THECA_WERROR)
    target_compile_options(${target} PRIVATE -Werror)
  endif()
  if(THECA_SANITIZE)
    target_compile_options(${target} PRIVATE -fsanitize=address,undefined -fno-sanitize-recover=all
                                             -fno-omit-frame-pointer)
    target_link_options(${target} PRIVATE -fsanitize=address,undefined)
  endif()
endfunction()
